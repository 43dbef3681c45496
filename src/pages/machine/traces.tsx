import type { ComponentChildren } from 'preact';
import type { FigureTrace, TraceStep } from '../../explain/index.js';
import { printable } from '../../findings/index.js';
import type { Interval, TakenRead } from '../../interval/index.js';
import { amountCell, type MoneyUnit, plural } from '../../report/text/words.js';

/** What traces are shown in. */
export interface TraceContext {
  /** Both reads, to say which of them a line is of. */
  readonly ends: Pick<Interval, 'from' | 'to'>;
  readonly unit: MoneyUnit;
  /** What the page says anyway, and labels need not begin with. */
  readonly subject?: string;
  /** Where another figure is explained; undefined where that is on another page. */
  readonly linkOf: (figure: string) => string | undefined;
}

/** What one trace shows. */
export interface TraceProps {
  readonly trace: FigureTrace;
  readonly context: TraceContext;
}

const LONGEST_LABEL = 120;
const LONGEST_NOTE = 300;
/** So many parts of a sum are shown; the others are counted. */
const MOST_PARTS = 80;
/** In a sum of more parts than this, those that are 0 are only counted. */
const MANY_PARTS = 12;

/**
 * The arithmetic behind a figure: what it is, what it is made of, and the line and element of the read where that stands.
 * Numbers that are added stand on one line; what has parts of its own has lines of its own.
 */
export function Trace({ trace: { step }, context }: TraceProps) {
  return <Explained step={step} context={context} />;
}

interface StepProps {
  readonly step: TraceStep;
  readonly context: TraceContext;
}

/** A step with its label before it, and all it is made of. */
function Explained({ step, context }: StepProps) {
  const { label, parts, how } = step;
  const subject = `${context.subject ?? ''}: `;
  const said = label.startsWith(subject) ? label.slice(subject.length) : label;
  return (
    <>
      {printable(said, LONGEST_LABEL)}: <strong>{valueWords(step, context)}</strong>
      {parts.length > 0 ? <Made step={step} context={context} /> : how === 'sheet' ? ' (plan)' : null}
      <Note step={step} />
    </>
  );
}

function Made({ step, context }: StepProps) {
  const { parts, how } = step;
  const isZero = (part: TraceStep): boolean => part.value === 0 && part.ref !== null;
  const told = parts.length > MANY_PARTS ? parts.filter((part) => !isZero(part)) : parts;
  const shown = told.slice(0, MOST_PARTS);
  const more = [
    parts.length === told.length ? null : `${parts.length - told.length} more that are 0`,
    told.length === shown.length ? null : `${told.length - shown.length} more, not shown here`,
  ].filter((words) => words !== null);
  const rest = more.length === 0 ? null : ` … and ${more.join(' and ')}`;
  if (shown.length === 0) return ` = ${plural(parts.length, 'part')} that are all 0`;
  if (shown.every((part) => part.parts.length === 0)) {
    return (
      <>
        {how === 'unknown' ? '; there is ' : ' = '}
        {shown.map((part, place) => (
          <span key={place}>
            {signOf(step, part, place)}
            <Leaf step={part} context={context} />
          </span>
        ))}
        {rest}
      </>
    );
  }
  return (
    <ul>
      {shown.map((part, place) => (
        <li key={place}>
          {signOf(step, part, place)}
          {part.parts.length === 0 ? (
            <Leaf step={part} context={context} />
          ) : (
            <Explained step={part} context={context} />
          )}
        </li>
      ))}
      {rest === null ? null : <li>{rest}</li>}
    </ul>
  );
}

/** A value that is made of nothing else, with where it stands. */
function Leaf({ step, context }: StepProps) {
  return (
    <>
      {valueWords(step, context)}
      <span class="faint"> ({whenceWords(step, context)})</span>
      <Note step={step} />
    </>
  );
}

/** In what is not known, parts are only what there is: nothing is added up. */
function signOf({ how }: TraceStep, part: TraceStep, place: number): string {
  if (how === 'unknown') return place === 0 ? '' : ', ';
  if (how === 'product') return place === 0 ? '' : ' × ';
  if (part.sign === -1) return ' − ';
  return place === 0 ? '' : ' + ';
}

/** Where a value stands, or what it is. */
function whenceWords({ label, place, ref }: TraceStep, { ends, linkOf }: TraceContext): ComponentChildren {
  const said = printable(label, LONGEST_LABEL);
  if (ref !== null) {
    const link = linkOf(ref);
    return link === undefined ? said : <a href={link}>{said}</a>;
  }
  if (place === null) return said;
  const { line, file, element } = place;
  const what = element === undefined ? said : element;
  const at = line === undefined ? '' : `, line ${line}`;
  const isOf = (taken: TakenRead): boolean =>
    file === taken.file && (place.read === undefined || place.read === taken.read.number);
  const [isLater, isEarlier] = [isOf(ends.to), isOf(ends.from)];
  const read = isLater === isEarlier ? '' : isLater ? ', later read' : ', earlier read';
  return `${what}${read}${at}`;
}

function Note({ step: { note } }: Pick<StepProps, 'step'>) {
  return note === null ? null : <span>. {printable(note, LONGEST_NOTE)}</span>;
}

function valueWords({ value, unit }: TraceStep, context: TraceContext): string {
  if (value === null) return 'not known';
  const digits = unit === 'money' ? amountCell(value, context.unit) : String(value);
  return digits.replace(/^-/, '−');
}
