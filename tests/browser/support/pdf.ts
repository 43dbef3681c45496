import type { Page } from 'playwright-core';

/** A page as it comes from the printer. */
export interface PrintedPages {
  readonly count: number;
  /** Widths and heights of the sheets in millimetres, each once. */
  readonly sizes: readonly string[];
  readonly bytes: Buffer;
}

const MM_PER_POINT = 25.4 / 72;

/** Print a page to PDF, as a person would on that paper, and count its sheets (ISO 32000: page objects and their boxes). */
export async function printPage(page: Page, format: 'A4' | 'Letter' = 'A4'): Promise<PrintedPages> {
  const bytes = await page.pdf({ format, preferCSSPageSize: false });
  const text = bytes.toString('latin1');
  const boxes = [...text.matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/g)];
  const sizes = boxes.map(([, width, height]) =>
    [width, height].map((points) => Math.round(Number(points) * MM_PER_POINT)).join(' x '),
  );
  return { count: [...text.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length, sizes: [...new Set(sizes)], bytes };
}

/** What is shown of a page when it is printed: the text of what is not hidden then. */
export async function printedText(page: Page): Promise<string> {
  await page.emulateMedia({ media: 'print' });
  const text = await page.evaluate<string>('document.body.innerText');
  await page.emulateMedia({ media: null });
  return text;
}
