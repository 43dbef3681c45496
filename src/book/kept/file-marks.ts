import { printable } from '../../findings/index.js';

/**
 * What a file is called while its reads are worked out: by the number of its entry, so that what else is equal goes in the
 * order it was recorded, and not by names that files share. Findings that are kept name it so.
 */
export function nameEntry(entry: number): string {
  return `⟦${String(entry).padStart(16, '0')}⟧`;
}

const MARK = /("?)⟦(\d{16})⟧("?)/g;

/**
 * Put the names of files in place of the numbers of their entries: as they are where a finding says its place, made safe
 * within a sentence.
 *
 * @param json - findings as JSON
 */
export function putFilesIn(json: string, fileOf: (entry: number) => string): string {
  if (!json.includes('⟦')) return json;
  return json.replace(MARK, (_, before: string, digits: string, after: string) => {
    const file = fileOf(Number(digits));
    if (before !== '' && after !== '') return JSON.stringify(file);
    return `${before}${JSON.stringify(printable(file, 200)).slice(1, -1)}${after}`;
  });
}
