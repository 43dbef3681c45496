/** Letters that are taken for digits when a number is typed from a plate (common practice). */
const MISREAD: Readonly<Record<string, string>> = { O: '0', Q: '0', I: '1', L: '1', Z: '2', S: '5', B: '8' };
const SHORTEST = 3;

/**
 * Whether two numbers are alike as a number and the same one typed wrong are: but for case, spaces, leading zeros and letters
 * read for digits they are the same, or one character differs, is missing or one too many, or two stand in the wrong order.
 * Numbers of a fleet are often so alike: by itself it proves nothing.
 */
export function isNearNumber(a: string | null, b: string | null): boolean {
  if (a === null || b === null) return false;
  const [one, other] = [plainNumber(a), plainNumber(b)];
  if (one.length < SHORTEST || other.length < SHORTEST) return false;
  return one === other || isOneSlip(one, other);
}

function plainNumber(text: string): string {
  const letters = [...text.toUpperCase().replace(/[\s._-]/g, '')].map((letter) => MISREAD[letter] ?? letter);
  return letters.join('').replace(/^0+/, '');
}

function isOneSlip(a: string, b: string): boolean {
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  const [restA, restB] = [a.slice(start), b.slice(start)];
  const isReplaced = restA.slice(1) === restB.slice(1);
  const isExtra = restA.slice(1) === restB || restA === restB.slice(1);
  const isSwapped = restA[0] === restB[1] && restA[1] === restB[0] && restA.slice(2) === restB.slice(2);
  return isReplaced || isExtra || isSwapped;
}
