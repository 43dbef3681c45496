import { eventsCheck } from '../../checks/events.js';
import { makeCheckContext } from '../../checks/index.js';
import type { Finding } from '../../findings/index.js';
import type { TakenRead } from '../../interval/index.js';
import type { Roster } from '../../sheets/index.js';

/** The faults that a machine reports as active at a read, of whatever day: what its check says of them. */
export function listActiveFaults({ file, read }: TakenRead, roster: Roster): readonly Finding[] {
  const context = makeCheckContext(file, read, { roster });
  return eventsCheck.run(read, context).map((finding) => ({ file, ...finding }));
}
