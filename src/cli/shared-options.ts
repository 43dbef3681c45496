import { type Command, Option } from 'commander';

/** Add the options that all commands take. */
export function addSharedOptions(command: Command): Command {
  return command
    .option('--machines <file>', 'the roster of machines (CSV)')
    .option('--plan <file>', 'products and prices by column (CSV)')
    .option('--captures-list <file>', 'when and why each capture was received (CSV)')
    .option(
      '--profiles <path>',
      'how machines depart from the standard (JSON file or folder; may be repeated)',
      collect,
    )
    .option('--currency <code>', 'currency where neither capture nor roster says one (ISO 4217)')
    .option('--decimals <n>', 'decimals where neither capture nor roster says them')
    .option('--clock-tolerance <minutes>', 'how far a machine clock may be off (10)')
    .option('--received-from-file-time', "take a file's own time as when it was received")
    .option('--strict', 'a doubt counts as a fault')
    .option('--json', 'print JSON, one object a line')
    .option('--csv', 'print a table for a spreadsheet (CSV)');
}

/** One more value of an option that may be repeated: taking several at once would swallow the captures after it. */
function collect(value: string, before: string[] = []): string[] {
  return [...before, value];
}

/** Add the options by which a round is settled. */
export function addSettlingOptions(command: Command): Command {
  return addBagOptions(
    command
      .option('--route <name>', 'only this route')
      .option('--day <date>', 'only visits of this day, such as 2026-11-24'),
  );
}

/** Add the options by which bags are held against what was expected. */
export function addBagOptions(command: Command): Command {
  return command
    .option('--tolerance <amount>', 'a difference up to this amount is agreed, such as 0.50 (0)')
    .option('--tolerance-percent <percent>', 'a difference up to this part of what is expected is agreed (0)')
    .option('--window <minutes>', 'how far a capture may lie from the time of a visit (60)')
    .option('--ignore-hand-moves', 'leave coins paid out and filled by hand out of what is expected');
}

/** Add the options by which accounts of a time are made. */
export function addAccountingOptions(command: Command): Command {
  return command
    .option('--from <day>', 'only what was sold from this day on, such as 2026-11-01, by the later of two reads')
    .option('--to <day>', 'only what was sold up to this day, by the later of two reads');
}

/** An option that chooses between tables, and asks for CSV. */
export function tableOption(tables: readonly string[]): Option {
  return new Option('--table <name>', `which table to print as CSV: ${tables.join(' or ')}`).implies({ csv: true });
}
