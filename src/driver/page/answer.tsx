import type { Verdict } from '../../checks/index.js';

/** Each verdict has a shape of its own beside its word: nothing is told by colour alone. */
const SHAPES: Readonly<Record<Verdict, string>> = {
  sound: 'M24 4a20 20 0 1 0 0 40a20 20 0 1 0 0-40ZM14 25l7 7L35 17',
  doubtful: 'M24 4L44 40H4ZM24 17v11M24 33v2',
  'read-again': 'M15 4H33L44 15V33L33 44H15L4 33V15ZM16 16l16 16M32 16L16 32',
};

/** The sign of a verdict. */
export function VerdictSign({ verdict, size = 48 }: { verdict: Verdict; size?: number }) {
  return (
    <svg class="sign" viewBox="0 0 48 48" width={size} height={size} aria-hidden="true">
      <path d={SHAPES[verdict]} />
    </svg>
  );
}

interface AnswerProps {
  readonly verdict: Verdict;
  readonly heading: string;
  readonly todo: string;
  /** Which capture it is of. */
  readonly about?: string;
  readonly cautions: readonly string[];
}

/** The answer: what the capture is good for, what to do, and the cautions that go with that. */
export function Answer({ verdict, heading, todo, about, cautions }: AnswerProps) {
  return (
    <section class={`answer ${verdict}`} aria-labelledby="answer">
      <div class="verdict">
        <VerdictSign verdict={verdict} />
        <h2 id="answer" tabIndex={-1}>
          {heading}
        </h2>
      </div>
      <p class="do">{todo}</p>
      {about === undefined ? null : <p class="about">{about}</p>}
      <Cautions cautions={cautions} />
    </section>
  );
}

/** What holds wherever advice sends a hand into a cabinet, or acts on a figure. */
export function Cautions({ cautions }: { cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <div class="cautions">
      <h3>Cautions</h3>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </div>
  );
}

/** The verdict of the worst of many captures. */
export function worstOf(counts: Readonly<Record<Verdict, number>>): Verdict {
  return counts['read-again'] > 0 ? 'read-again' : counts.doubtful > 0 ? 'doubtful' : 'sound';
}
