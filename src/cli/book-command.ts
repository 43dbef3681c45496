import { type Command, Option } from 'commander';
import { addReadableBy } from './readable-by.js';
import { addSharedOptions } from './shared-options.js';
import type { Terminal } from './terminal.js';

// Each command is loaded when it is called for: all others run without the modules of the book.

type Done = (status: number) => void;

/** Add the commands that show and prove what the book holds. */
export function addBook(command: Command, terminal: Terminal, done: Done): void {
  command.description('what the book holds, whether it is as it was recorded, and proofs of it');
  addHead(command.command('head'), terminal, done);
  addVerify(command.command('verify'), terminal, done);
  addEntries(command.command('entries'), terminal, done);
  addFile(command.command('file'), terminal, done);
  addProof(command.command('proof'), terminal, done);
  addCheckProof(command.command('check-proof'), terminal, done);
  addExport(command.command('export'), terminal, done);
}

const BOOK = new Option('--book <file>', 'the book (coilbook.db in this folder)');
const JSON_OPTION = new Option('--json', 'print JSON');

function addNoted(command: Command): Command {
  return command
    .option('--size <n>', 'number of entries, as it was written down elsewhere')
    .option('--root <hex>', 'the root that was written down beside it');
}

function addHead(command: Command, terminal: Terminal, done: Done): void {
  command
    .description('how many entries there are and the root over them, to be written down elsewhere')
    .addOption(BOOK)
    .addOption(JSON_OPTION)
    .action(async (options) => done(await (await import('./book-head.js')).runBookHead(options, terminal)));
}

function addVerify(command: Command, terminal: Terminal, done: Done): void {
  addNoted(command.addOption(BOOK))
    .description(
      'is everything as it was recorded? works all of it out anew, and names the first entry that does not fit',
    )
    .option('--put-back', 'put reads back that are kept as of another machine, time or visit than entries say')
    .option('--deep', 'also work out all that is kept of the captures, and hold it against what is kept')
    .addOption(JSON_OPTION)
    .action(async (options) => done(await (await import('./book-verify.js')).runBookVerify(options, terminal)));
}

function addEntries(command: Command, terminal: Terminal, done: Done): void {
  command
    .description('the entries: number, when, kind, what it is of')
    .addOption(BOOK)
    .option('--kind <kind>', 'only this kind, such as capture-taken (may be repeated)', collect)
    .option('--day <date>', 'only entries about this day, such as 2026-11-24')
    .option('--json', 'print JSON, one entry a line, with all that it records')
    .action(async (options) => done(await (await import('./book-entries.js')).runBookEntries(options, terminal)));
}

function addFile(command: Command, terminal: Terminal, done: Done): void {
  command
    .description('the file of an entry, byte for byte as it came')
    .argument('<entry>', 'the number of an entry: see `coilbook book entries`')
    .option('--out <file>', 'where to; else it goes to standard output')
    .addOption(BOOK)
    .action(async (entry: string, options) =>
      done(await (await import('./book-file.js')).runBookFile(entry, options, terminal)),
    );
}

function addProof(command: Command, terminal: Terminal, done: Done): void {
  command
    .description(
      'prove, for somebody without the book, that an entry is in it or that nothing before was changed (JSON)',
    )
    .argument('[entry]', 'the number of an entry: see `coilbook book entries`')
    .option('--from <size>', 'that the book begins with all entries it had at this size, unchanged')
    .addOption(BOOK)
    .action(async (entry: string | undefined, options) =>
      done(await (await import('./book-proof.js')).runBookProof(entry, options, terminal)),
    );
}

function addCheckProof(command: Command, terminal: Terminal, done: Done): void {
  addNoted(command)
    .description('does a proof hold? needs no book')
    .argument('<file>', 'what `coilbook book proof` printed; - reads standard input')
    .addOption(JSON_OPTION)
    .action(async (file: string, options) =>
      done(await (await import('./book-check-proof.js')).runBookCheckProof(file, options, terminal)),
    );
}

function addExport(command: Command, terminal: Terminal, done: Done): void {
  addReadableBy(addSharedOptions(command), terminal)
    .description('captures, columns and cash as Parquet, a folder a day, for an engine that takes over from here')
    .addOption(BOOK)
    .requiredOption('--parquet <folder>', 'where to; days that are there are replaced whole, others left')
    .option('--from <day>', 'only from this day on, such as 2026-11-01')
    .option('--to <day>', 'only up to this day')
    .addHelpText(
      'after',
      '\nExample:\n  coilbook book export --parquet tables --machines machines.csv --plan plan.csv --from 2026-11-01',
    )
    .action(async (options) => done(await (await import('./book-export.js')).runBookExport(options, terminal)));
}

/** One more value of an option that may be repeated. */
function collect(value: string, before: string[] = []): string[] {
  return [...before, value];
}
