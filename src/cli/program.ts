import { Command } from 'commander';
import { addBook } from './book-command.js';
import { runCheck } from './check-command.js';
import { runDay } from './day-command.js';
import { runDeposits } from './deposits-command.js';
import { runExplain } from './explain-command.js';
import { runInterval } from './interval-command.js';
import { addReadableBy } from './readable-by.js';
import { runReport } from './report-command.js';
import { runSettle } from './settle-command.js';
import {
  addAccountingOptions,
  addBagOptions,
  addSettlingOptions,
  addSharedOptions,
  tableOption,
} from './shared-options.js';
import { runStatement } from './statement-command.js';
import type { Terminal } from './terminal.js';

type Done = (status: number) => void;

/**
 * The commands with their options and help.
 *
 * @param done - told the exit status of the command that ran
 */
export function makeProgram(version: string, terminal: Terminal, done: Done): Command {
  const program = new Command('coilbook')
    .description(
      'Read, check and reconcile the audit captures of vending machines (DEX/UCS files laid out by EVA-DTS).',
    )
    .version(version)
    .addHelpText('after', `\n${EXIT_HELP}`);
  addCheck(program.command('check'), terminal, done);
  addExplain(program.command('explain'), terminal, done);
  addInterval(program.command('interval'), terminal, done);
  addSettle(program.command('settle'), terminal, done);
  addDay(program.command('day'), version, terminal, done);
  addReport(program.command('report'), version, terminal, done);
  addDeposits(program.command('deposits'), terminal, done);
  addStatement(program.command('statement'), terminal, done);
  addBook(program.command('book'), terminal, done);
  return program;
}

const EXIT_HELP = `Exit status:
  0   nothing to look at
  1   doubts or differences
  2   faults: read again, or something cannot be settled
  64  wrong use
  66  input missing or unreadable
  70  a defect of the program itself`;

const CAPTURES = 'capture files or folders; - reads standard input';

function addCheck(command: Command, terminal: Terminal, done: Done): void {
  addSharedOptions(command)
    .description('is each capture whole, of the right machine, and fit for accounts?')
    .argument('<captures...>', CAPTURES)
    .option('--machine <name>', 'the machine of the roster that the captures are said to be of')
    .option('--received-at <time>', 'when the captures were received, such as "2026-11-24 10:15"')
    .option('--all', 'show sound captures too, and not only count them')
    .option('--install', 'check an installation: does everything report, and is a vend counted?')
    .option('--second <capture>', 'with --install: a capture of the same machine after one vend')
    .option('--column <name>', 'with --install: the column of that vend')
    .option('--service', 'with --install: the first capture was a service read, which clears the counters')
    .addHelpText(
      'after',
      example(
        'coilbook check captures/ --machines machines.csv --plan plan.csv',
        'coilbook check --install first.dex --second after.dex --machines machines.csv',
      ),
    )
    .action(async (names: string[], options) => done(await runCheck(names, options, terminal)));
}

function addExplain(command: Command, terminal: Terminal, done: Done): void {
  addSettlingOptions(addSharedOptions(command))
    .description('a capture in words, element by element; or the arithmetic behind a figure')
    .argument('<captures...>', CAPTURES)
    .option('--figure <id>', 'a figure of the intervals between the captures, such as columns.11.sold')
    .option('--counts <file>', 'bags as counted (CSV): the figure is one of the settled round')
    .option('--only <machine>', 'only this machine')
    .addHelpText(
      'after',
      example('coilbook explain monday.dex', 'coilbook explain --figure columns.11.sold monday.dex friday.dex'),
    )
    .action(async (names: string[], options) => done(await runExplain(names, options, terminal)));
}

function addInterval(command: Command, terminal: Terminal, done: Done): void {
  addSharedOptions(command)
    .description('what each machine sold, and what its cash did, between every two captures')
    .argument('<captures...>', CAPTURES)
    .option('--only <machine>', 'only this machine')
    .addOption(tableOption(['sales', 'cash']))
    .addHelpText('after', example('coilbook interval captures/ --machines machines.csv --plan plan.csv'))
    .action(async (names: string[], options) => done(await runInterval(names, options, terminal)));
}

function addSettle(command: Command, terminal: Terminal, done: Done): void {
  addSettlingOptions(addSharedOptions(command))
    .description('what should be in each bag, what was counted, over and short, by machine, driver and route')
    .option('--captures <path...>', CAPTURES)
    .option('--counts <file>', 'bags as counted (CSV)')
    .option('--book <file>', 'settle from the captures and counts in this book, in place of --captures')
    .option('--record', 'with --book: record the counts, and close nothing')
    .option('--close', 'with --book: record the counts and close the settlements; they are never rewritten')
    .option('--close-anyway <reason>', 'with --close: close them though a row could not be used, or nothing is settled')
    .option('--correct <reason>', 'with --book: the sheet corrects counts in the book; both stay readable')
    .option('--corrects <entry>', "with --book: the sheet's one row takes the place of this count, whatever it changes")
    .option('--withdraw <entry>', 'with --book: take a count out that is none')
    .option('--reason <text>', 'why a count is corrected or taken out')
    .option('--by <name>', 'who records, closes or corrects')
    .addOption(tableOption(['visits', 'sales']))
    .addHelpText(
      'after',
      example(
        'coilbook settle --captures captures/ --counts counts.csv --day 2026-11-24 \\',
        '    --machines machines.csv --plan plan.csv --captures-list captures.csv',
        'coilbook settle --book coilbook.db --counts counts.csv --day 2026-11-24 \\',
        '    --machines machines.csv --close --by Kim',
      ),
    )
    .action(async (options) => done(await runSettle(options, terminal)));
}

function addDay(command: Command, version: string, terminal: Terminal, done: Done): void {
  addReadableBy(addBagOptions(addSharedOptions(command)), terminal)
    .description("take a day's files into the book, and list what has to be looked at, worst first")
    .argument('[folders...]', `${CAPTURES}; without any, the day is made again from the book`)
    .option('--book <file>', 'the book (coilbook.db)')
    .option('--day <date>', 'the day of the run (today)')
    .option('--counts <file>', 'bags as counted that day (CSV): its rounds are settled')
    .option('--out <folder>', 'write sales, cash, settlement, attention and refill (CSV), day.json and pages there')
    .option('--no-pages', 'with --out: make no pages')
    .addHelpText(
      'after',
      example(
        'coilbook day captures/ --machines machines.csv --plan plan.csv \\',
        '    --captures-list captures.csv --out days/2026-11-24',
      ),
    )
    .action(async (names: string[], options) => done(await runDay(names, options, terminal, version)));
}

function addReport(command: Command, version: string, terminal: Terminal, done: Done): void {
  addReadableBy(addBagOptions(addSharedOptions(command)), terminal)
    .description('the pages of a day, made from the book: the day, its machines, its settlement sheets')
    .option('--book <file>', 'the book (coilbook.db)')
    .option('--day <date>', 'the day, such as 2026-11-24')
    .option('--out <folder>', 'where the pages are put; open index.html there')
    .option(
      '--since <date>',
      'instead: make the files again, where they lie, of the days from this one on that have changed',
    )
    .option('--counts <file>', 'bags as counted that day (CSV), where the book does not have them yet')
    .addHelpText(
      'after',
      example(
        'coilbook report --day 2026-11-24 --out days/2026-11-24 --machines machines.csv',
        'coilbook report --since 2026-11-20 --machines machines.csv --plan plan.csv',
      ),
    )
    .action(async (options) => done(await runReport(options, terminal, version)));
}

function addDeposits(command: Command, terminal: Terminal, done: Done): void {
  addAccountingOptions(addSharedOptions(command))
    .description("card sales against the processor's deposits: what fits, what is missing, what is kept back as fees")
    .option('--captures <path...>', CAPTURES)
    .option('--book <file>', 'in place of captures: the book that they were taken into')
    .requiredOption('--deposits <file>', "the processor's payments by machine or card device (CSV)")
    .option('--window-days <n>', 'how many days after the sales a deposit may come (3)')
    .option('--day-ends-at <time>', "when the processor's day ends, such as 06:00 (00:00)")
    .option('--complete-from <day>', 'the sheet has all deposits from this day on (the day of its first)')
    .option('--complete-to <day>', 'the sheet has all deposits up to this day (the day of its last)')
    .addHelpText(
      'after',
      example('coilbook deposits --captures captures/ --deposits deposits.csv --machines machines.csv'),
    )
    .action(async (options) => done(await runDeposits(options, terminal)));
}

function addStatement(command: Command, terminal: Terminal, done: Done): void {
  addAccountingOptions(addSharedOptions(command))
    .description('what each location sold, the sales tax in it, and its commission with the base it is taken of')
    .option('--captures <path...>', CAPTURES)
    .option('--book <file>', 'in place of captures: the book that they were taken into')
    .addOption(tableOption(['locations', 'machines']))
    .addHelpText(
      'after',
      example('coilbook statement --captures captures/ --machines machines.csv --from 2026-11-01 --to 2026-11-30'),
    )
    .action(async (options) => done(await runStatement(options, terminal)));
}

function example(...lines: readonly string[]): string {
  return `\nExample:\n${lines.map((line) => `  ${line}`).join('\n')}`;
}
