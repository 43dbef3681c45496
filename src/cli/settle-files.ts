import { type SettledFiles, settleFiles } from '../index.js';
import { circumstancesOf, loadOfficeFiles, refuseTwoInputs, workplaceOf } from './inputs.js';
import { defaultMoney, readTolerance } from './money-options.js';
import type { SettlingOptions } from './option-shapes.js';
import type { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

/** Read everything a round is settled from, as options name it, and settle it. */
export async function settleFromFiles(
  captures: readonly string[],
  options: SettlingOptions & { readonly counts: string },
  { terminal, progress }: { terminal: Terminal; progress: Progress },
): Promise<SettledFiles> {
  const { counts, machines, plan, capturesList, route, day, window, ignoreHandMoves } = options;
  refuseTwoInputs([...captures, counts, machines, plan, capturesList]);
  const office = await loadOfficeFiles(options, terminal);
  const settling = {
    ...circumstancesOf(options, office, progress),
    defaults: defaultMoney(options),
    tolerance: readTolerance(options, office.roster.books.machines),
    ignoreHandMoves,
    ...(route === undefined ? {} : { route }),
    ...(day === undefined ? {} : { day }),
    ...(window === undefined ? {} : { windowMinutes: window }),
  };
  return settleFiles({ captures, counts }, office, settling, workplaceOf(terminal));
}
