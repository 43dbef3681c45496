import { CAUTIONS, type CautionName } from '../../findings/index.js';
import { Heading, type HeadingLevel } from './heading.js';

/** What a list of cautions shows. */
export interface CautionsProps {
  readonly cautions: readonly CautionName[];
  /** Its id, where a page has more than one. */
  readonly id?: string;
  readonly level?: HeadingLevel;
}

/** The cautions that go with the advice of a page, each once; their numbers are those of `CautionMarks`. */
export function Cautions({ cautions, id = 'cautions', level = 2 }: CautionsProps) {
  if (cautions.length === 0) return null;
  return (
    <div class="cautions">
      <Heading level={level} id={id}>
        Cautions
      </Heading>
      <ol>
        {cautions.map((name) => (
          <li key={name}>{CAUTIONS[name]}</li>
        ))}
      </ol>
    </div>
  );
}

/** Numbers that lead from an advice to its cautions. */
export function CautionMarks({ own, all }: Readonly<Record<'own' | 'all', readonly CautionName[]>>) {
  if (own.length === 0) return null;
  const numbers = own.map((caution) => all.indexOf(caution) + 1).filter((number) => number > 0);
  return (
    <a href="#cautions" aria-label={`Cautions ${numbers.join(', ')}`}>
      {numbers.map((number) => `[${number}]`).join('')}
    </a>
  );
}
