import { Shown } from '../frame/index.js';

/** Lines to sign on. */
export function Signatures({ driver }: { readonly driver: string | null }) {
  return (
    <ul class="signatures keep" aria-label="Signatures">
      <li>
        Driver{driver === null ? '' : ' '}
        {driver === null ? null : <Shown text={driver} />}: signature, date
      </li>
      <li>Counted by: name, signature, date</li>
      <li>Office: name, signature, date</li>
    </ul>
  );
}
