import { scaleLinear } from 'd3-scale';
import type { TakenRead } from '../../interval/index.js';
import { bestTime, largestOf } from '../../model/index.js';
import { amountCell, plural, unitWords } from '../../report/text/words.js';
import { DataTable, Money, Pieces, Shown, type TableColumn, When } from '../frame/index.js';
import { readTubeLevels, type TubeLevel, type TubeLevels } from './tube-levels.js';

/** The levels of a machine's coin tubes at its last usable read: the drawing, and the same as a table. */
export function TubesPart({ latest }: { readonly latest: TakenRead | null }) {
  if (latest === null) return <p>No usable read says what is in the tubes.</p>;
  const levels = readTubeLevels(latest);
  const { tubes, total, isEstimate, left } = levels;
  const unit = latest;
  return (
    <>
      <p>
        At the last usable read, <When at={bestTime(latest)} />: in all{' '}
        <Money amount={total} unit={unit} withCurrency />.
        {isEstimate ? ' The coin mechanism knows only low and full, so the levels are estimates.' : ''}
        {left === 0 ? '' : ` ${plural(left, 'more tube')} not shown.`}
      </p>
      {tubes.length === 0 ? (
        <p>The read does not say what each tube holds.</p>
      ) : (
        <div class="beside">
          <TubesChart levels={levels} latest={latest} />
          <DataTable caption={`Coin tubes, in ${unitWords(unit)}`} columns={columnsOf(latest)} rows={tubes} />
        </div>
      )}
    </>
  );
}

function columnsOf(latest: TakenRead): readonly TableColumn<TubeLevel>[] {
  return [
    { head: 'Coin', isNumber: true, cell: ({ coin }) => <Money amount={coin} unit={latest} /> },
    { head: 'Coins', isNumber: true, cell: ({ coins }) => <Pieces count={coins} /> },
    { head: 'Amount', isNumber: true, cell: ({ amount }) => <Money amount={amount} unit={latest} /> },
    { head: 'Number', cell: ({ name }) => (name === null ? 'not stated' : <Shown text={name} max={20} />) },
    { head: 'From', cell: ({ line }) => (line === null ? 'CA17' : `CA1703, line ${line}`) },
  ];
}

const WIDTH = 320;
const ROW = 22;
const START = 64;
const ROOM = WIDTH - START - 70;

function TubesChart({ levels: { tubes }, latest }: { readonly levels: TubeLevels; readonly latest: TakenRead }) {
  const most = largestOf(
    tubes.map(({ coins }) => coins ?? 0),
    1,
  );
  const width = scaleLinear([0, most], [0, ROOM]);
  return (
    <figure>
      <svg
        class="chart"
        viewBox={`0 0 ${WIDTH} ${tubes.length * ROW}`}
        role="img"
        aria-labelledby="tubes-title tubes-desc"
      >
        <title id="tubes-title">Coins in the tubes</title>
        <desc id="tubes-desc">How many coins each tube holds; the table says the same.</desc>
        {tubes.map(({ coin, coins }, place) => (
          <g key={place}>
            <text x={START - 6} y={place * ROW + 15} text-anchor="end">
              {coin === null ? 'coin ?' : amountCell(coin, latest).slice(0, 9)}
            </text>
            {coins === null ? (
              <rect class="flow-unknown" x={START} y={place * ROW + 4} width="20" height={ROW - 8} />
            ) : (
              <rect
                class="shape-1"
                x={START}
                y={place * ROW + 4}
                width={Math.round(Math.max(1, width(coins)))}
                height={ROW - 8}
              />
            )}
            <text x={START + 6 + Math.max(0, coins === null ? 20 : width(coins))} y={place * ROW + 15}>
              {coins === null ? 'not known' : coins === 0 ? '0, empty' : String(coins).slice(0, 9)}
            </text>
          </g>
        ))}
      </svg>
    </figure>
  );
}
