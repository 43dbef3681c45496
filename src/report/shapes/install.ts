import { z } from 'zod';
import { textShape } from './figures.js';
import { cautionsShape, generalShape } from './finding.js';

/** What `check --install --json` prints: one object. */
export const installShape = z.object({
  file: z.string(),
  /** The second capture, after a vend; null without one. */
  second: textShape,
  passed: z.boolean(),
  headline: z.string(),
  items: z.array(
    z.object({
      id: z.enum([
        'capture',
        'machine',
        'control-board',
        'coin-mechanism',
        'bill-validator',
        'card-reader',
        'clock',
        'faults',
        'prices',
        'test-vend',
        'second-capture',
        'vend-counted',
        'reset',
      ]),
      what: z.string(),
      state: z.enum(['pass', 'missing', 'not-known']),
      detail: z.string(),
      advice: textShape,
      cautions: cautionsShape,
    }),
  ),
  general: generalShape,
});

/** See {@link installShape}. */
export type InstallJson = z.infer<typeof installShape>;
