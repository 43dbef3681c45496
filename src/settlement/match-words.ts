import { FINDING_CODES, printable } from '../findings/index.js';
import type { CountRow } from '../model/index.js';
import type { Collection } from './collection.js';
import { driversOf, joinNames, nameBag, nameBagAndVisit, tellWhen } from './name-bags.js';
import type { VisitRead } from './visit-read.js';
import type { VisitTeller } from './visit-teller.js';

// What is said of how bags, captures and visits belong together.

/** No one machine of the roster, or no capture, has the name that the sheet gives. */
export function sayUnknownMachine(teller: VisitTeller, name: string, isOnRoster: boolean): void {
  const where = isOnRoster ? 'no capture names it' : 'it is not on the roster';
  teller.say('unknown-machine', `Machine ${printable(name, 40)}: ${where}.`, {
    advice: 'Check how the count sheet writes its name.',
    field: 'machine',
  });
}

/** The capture was found by the date although the sheet gives a time. */
export function sayMatchByDate(teller: VisitTeller, count: CountRow, read: VisitRead, windowMinutes: number): void {
  const visit = count.visitedAt.time!.slice(0, 5);
  const message = `No capture lies within ${windowMinutes} minutes of the visit at ${visit}; the one service read of that date, ${timeOfDay(read)}, was taken.`;
  teller.say('match-by-date', message, { advice: 'Check the time of the visit on the count sheet.' });
}

/** Several captures fit. */
export function sayTwoCaptures(teller: VisitTeller, candidates: readonly VisitRead[]): void {
  const list = candidates.map(nameRead).join(', ');
  teller.say('two-captures', `Several captures fit this bag equally well: ${list}. None was chosen.`, {
    advice: 'Name the bag or the capture on the count sheet, or mark the service read in the captures list.',
  });
}

/** The capture of the visit has faults. */
export function sayUnusable(teller: VisitTeller, read: VisitRead, { settledWith, counts }: Collection): void {
  const message = `The capture of this visit, ${printable(read.taken.file)}, cannot be used: ${tellFaults(read)}.`;
  const advice = counts.length === 0 ? '' : tellWhereSettled(settledWith);
  teller.say('capture-unusable', message, advice === '' ? {} : { advice });
}

/**
 * There is no capture at all.
 *
 * @param atLeast - what is known up to the last read before; empty when nothing is
 * @param near - the sentence on captures of machines not on the roster that may be its own; empty when there are none
 */
export function sayNoCapture(
  teller: VisitTeller,
  { settledWith, counts, match }: Collection,
  atLeast: string,
  near: string,
): void {
  const capture = counts[0]!.capture;
  const named = capture === null ? '' : ` ${printable(capture)}, which the sheet names, is none of this machine.`;
  const known =
    atLeast === ''
      ? 'Nothing shows what was expected.'
      : `Up to the last read before it at least ${atLeast} were expected.`;
  const daily = match.passedOver.map(nameRead);
  const passed =
    daily.length === 0
      ? ''
      : ` ${joinNames(daily)} of that date came at the hour of the daily reads and was not taken for it.`;
  const orName = daily.length === 0 ? '' : ', or name that one on the count sheet if it is its own';
  const look =
    near === ''
      ? `Look for the capture${orName}.`
      : "Check that machine's asset and serial number on the roster: if it is this one, correct them and settle again. Else look for the capture.";
  teller.say('no-capture', `There is no capture for this bag.${named}${near}${passed} ${known}`, {
    advice: `${look} ${tellWhereSettled(settledWith)}`.trimEnd(),
  });
}

function tellWhereSettled(settledWith: Collection['settledWith']): string {
  if (settledWith === null) return '';
  const bag = settledWith === 'next' ? 'the next one of this machine' : nameBagAndVisit(settledWith);
  return `Without it this bag is settled together with ${bag}.`;
}

/** Several rows of the sheet claim the visit. */
export function sayTwoCounts(teller: VisitTeller, counts: readonly CountRow[]): void {
  const rows = counts.map((count) => `row ${count.place.row} (${nameBag(count)}: ${teller.cash(count)})`).join(', ');
  teller.say('two-counts', `More than one bag claims this visit: ${rows}.`, {
    advice: 'If the visit had several bags, enter them as one; else correct the row that is wrong.',
  });
}

/** Bags that may lie before a collection or after it, or be a part of it: what belongs in its bag alone is not known. */
export function sayLooseBags(teller: VisitTeller, bags: readonly CountRow[]): void {
  const names = joinNames(bags.map(nameBagAndVisit));
  const message = `Nothing shows whether ${names} ${bags.length === 1 ? 'was' : 'were'} collected before this bag, with it or after it. What should be in this bag alone cannot be told.`;
  teller.say('two-counts', message, {
    advice: 'Put the time of each visit on the count sheet, or name its capture there.',
  });
}

/** Several rows claim the capture that is counted from. */
export function sayRivals(teller: VisitTeller, rivals: readonly CountRow[]): void {
  const rows = joinNames(rivals.map((count) => `row ${count.place.row} (${nameBagAndVisit(count)})`));
  const message = `The collection before is not clear: ${rows} claim the same capture, and one of them may have been collected later. What should be in this bag alone cannot be told.`;
  teller.say('two-counts', message, {
    advice: 'If they are one visit, enter them as one bag; else correct the row that is wrong.',
  });
}

/** Bags settled together. */
export function sayJointBags(teller: VisitTeller, rows: readonly CountRow[], usualDriver: string | null): void {
  const drivers = driversOf(rows, usualDriver).map((driver) => printable(driver, 40));
  const shared =
    drivers.length > 1
      ? ` They were collected by ${joinNames(drivers)}: the difference is counted with the later visit, and does not show in which bag it lies.`
      : '';
  const message = `${rows.length} bags have one difference here, since not each had a usable capture: ${joinNames(rows.map(nameBagAndVisit))}.${shared}`;
  teller.say('joint-bags', message);
}

/** Bags without a usable capture, of which is known what they should hold together, at least. */
export function sayJointFloor(teller: VisitTeller, rows: readonly CountRow[]): void {
  const message = `What is expected here should be in ${rows.length} bags together, since none of them has a usable capture: ${joinNames(rows.map(nameBagAndVisit))}.`;
  teller.say('joint-bags', message);
}

/** Money since the last collection may lie in a bag of which nothing is known. */
export function sayUnknownBags(teller: VisitTeller, reads: readonly VisitRead[]): void {
  const list = reads.map((read) => `${printable(read.taken.file)} (${tellWhen(read.time!)})`);
  const message = `Since the last collection there was a visit with a capture that cannot be used, and no bag of it is on the sheet: ${joinNames(list)}. What is expected in this bag alone cannot be told.`;
  teller.say('capture-unusable', message, {
    advice: 'Add the count of that bag, and both are settled together.',
  });
}

/**
 * A service read without a bag on the sheet.
 *
 * @param expected - the amount in words; empty when nothing is known
 * @param isLeast - whether that is a floor
 * @param joined - bags without a usable capture, whose money is in that amount too
 */
export function sayUncounted(
  teller: VisitTeller,
  expected: string,
  isLeast: boolean,
  joined: readonly CountRow[],
): void {
  const amount = expected === '' ? '' : ` ${isLeast ? 'At least ' : ''}${expected} should be in it.`;
  const others =
    joined.length === 0
      ? ''
      : ` In that is what was in ${joinNames(joined.map(nameBagAndVisit))}, for which there is no usable capture.`;
  teller.say('uncounted', `A service read was taken, and no bag was counted for it.${amount}${others}`, {
    advice:
      'Look for the bag and its count before the round is closed. That it is not on the sheet is no proof of wrongdoing.',
  });
}

/** A service read without a bag, where a row of the sheet that was refused may be that bag's. */
export function sayRefusedRow(teller: VisitTeller, row: number | null): void {
  const which = row === null ? 'The count sheet' : `Row ${row} of the count sheet`;
  const message = `A service read was taken, and no bag was counted for it. ${which} was not understood, and may have it.`;
  teller.say('bad-row', message, { advice: 'Correct the sheet and settle again.' });
}

const nameRead = (read: VisitRead): string => `${printable(read.taken.file)} (${timeOfDay(read)})`;
const timeOfDay = ({ time }: VisitRead): string => time?.slice(11, 16) ?? 'no time';

function tellFaults({ taken }: VisitRead): string {
  return [...new Set(taken.faults.map(({ code }) => FINDING_CODES[code].title))].join('; ');
}
