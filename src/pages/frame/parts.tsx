/** What leads to the parts of something that is too long for one page. */
export interface PartsProps {
  /** What is in parts: `Machines`. */
  readonly of: string;
  /** Where each part is, in order. */
  readonly hrefs: readonly string[];
  /** The part that is shown, from 0. */
  readonly here: number;
}

/** Links to the parts of something that is too long for one page; nothing where there is one part. */
export function Parts({ of, hrefs, here }: PartsProps) {
  if (hrefs.length < 2) return null;
  return (
    <nav class="pages" aria-label={`Parts of: ${of}`}>
      <p>
        {of}: part {here + 1} of {hrefs.length}
      </p>
      <ul>
        {hrefs.map((href, place) => (
          <li key={href}>
            <a href={href} aria-current={place === here ? 'true' : undefined}>
              Part {place + 1}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
