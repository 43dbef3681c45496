import type { Count, Minor } from '../../model/index.js';
import { amountCell, type MoneyUnit, signedCell, timeWords } from '../../report/text/words.js';

/** What stands where something is not known: a dash for the eye, the words for who listens. */
export function Absent({ words = 'not known' }: { readonly words?: string }) {
  return (
    <span class="absent">
      <span aria-hidden="true">–</span>
      <span class="out-of-sight">{words}</span>
    </span>
  );
}

/** What all figures have in common. */
interface FigureProps {
  /** Where the figure comes from: a link to it. */
  readonly from?: string | undefined;
}

function Linked({ text, from }: FigureProps & { readonly text: string }) {
  return from === undefined ? text : <a href={from}>{text}</a>;
}

/** An amount of money. */
export interface MoneyProps extends FigureProps {
  readonly amount: Minor | null;
  readonly unit: MoneyUnit;
  /** Whether a plus is written: for differences. */
  readonly signed?: boolean;
  /** Whether it is the least that it can be. */
  readonly floor?: boolean;
  /** Whether the currency is written behind it; in tables the caption says it. */
  readonly withCurrency?: boolean;
}

/** An amount of money, minor units; null is a dash, never 0. */
export function Money({ amount, unit, signed = false, floor = false, withCurrency = false, from }: MoneyProps) {
  if (amount === null) return <Absent />;
  const digits = (signed ? signedCell : amountCell)(amount, unit).replace(/^-/, '−');
  const currency = withCurrency && unit.currency !== null ? ` ${unit.currency}` : '';
  return <Linked text={`${floor ? 'at least ' : ''}${digits}${currency}`} from={from} />;
}

/** A number of pieces; null is a dash, never 0. */
export interface PiecesProps extends FigureProps {
  readonly count: Count | null;
  readonly floor?: boolean;
}

/** A number of pieces; null is a dash, never 0. */
export function Pieces({ count, floor = false, from }: PiecesProps) {
  if (count === null) return <Absent />;
  return <Linked text={`${floor ? 'at least ' : ''}${String(count).replace(/^-/, '−')}`} from={from} />;
}

/** A local date, or date and time. */
export function When({ at }: { readonly at: string | null }) {
  return at === null ? <Absent words="time not known" /> : <time dateTime={at}>{timeWords(at)}</time>;
}
