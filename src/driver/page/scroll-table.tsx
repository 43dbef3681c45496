import { printable } from '../../findings/index.js';

/** One column of a table. */
export interface TableHead {
  readonly head: string;
  readonly isNumber?: boolean;
}

interface ScrollTableProps {
  readonly caption: string;
  readonly heads: readonly TableHead[];
  /** Cells as text; the first of a row names it. */
  readonly rows: readonly (readonly string[])[];
  readonly footer?: readonly string[];
}

/** A table that scrolls within itself where the screen is narrow, also by keyboard. */
export function ScrollTable({ caption, heads, rows, footer }: ScrollTableProps) {
  return (
    <>
      <p class="caption">{caption}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard (WCAG 2.1.1) */}
      <section class="scroll" tabIndex={0} aria-label={caption}>
        <table aria-label={caption}>
          <thead>
            <tr>
              {heads.map(({ head, isNumber }) => (
                <th key={head} scope="col" class={isNumber ? 'number' : undefined}>
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((cells, i) => (
              <Row key={i} cells={cells} heads={heads} />
            ))}
          </tbody>
          {footer === undefined ? null : (
            <tfoot>
              <Row cells={footer} heads={heads} />
            </tfoot>
          )}
        </table>
      </section>
    </>
  );
}

function Row({ cells, heads }: { cells: readonly string[]; heads: readonly TableHead[] }) {
  const [name = '', ...rest] = cells.map((cell) => printable(cell, 120));
  return (
    <tr>
      <th scope="row">{name}</th>
      {rest.map((cell, i) => (
        <td key={i} class={heads[i + 1]?.isNumber ? 'number' : undefined}>
          {cell}
        </td>
      ))}
    </tr>
  );
}
