import { describe, expect, it } from 'vitest';
import { Progress } from '../../src/cli/progress.js';
import { Collector } from './run-program.js';

function steps(isTTY: boolean, times: readonly number[]): string {
  const stderr = new Collector(isTTY);
  const clock = [0, ...times];
  const terminal = { stdin: process.stdin, stdout: new Collector(false), stderr, env: {}, cwd: '/' };
  const progress = new Progress({ ...terminal, now: () => new Date(clock.shift()!) });
  for (const _ of times) progress.step();
  progress.clear();
  progress.clear();
  return stderr.text;
}

describe('Progress', () => {
  it('speaks after a second, not too often, and takes its line away', () => {
    expect(steps(true, [500, 1100, 1200, 1350])).toBe('\r\u001b[K2 files …\r\u001b[K4 files …\r\u001b[K');
  });

  it('is silent while nobody waits long, and where nobody looks', () => {
    expect(steps(true, [100, 900])).toBe('');
    expect(steps(false, [5000, 9000])).toBe('');
  });
});
