import { defineRoster } from '../support/demo/demo-roster.js';
import { type DemoLife, playDays } from '../support/demo/play-days.js';

let lives: readonly DemoLife[] | null = null;

/** What truly happened to the machines of the demo. */
export function livesOfDemo(): readonly DemoLife[] {
  lives ??= defineRoster().map(playDays);
  return lives;
}
