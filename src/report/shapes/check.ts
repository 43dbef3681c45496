import { z } from 'zod';
import { countShape, currencyShape, decimalsShape, machineShape, textShape, timeShape } from './figures.js';
import { findingShape, generalShape } from './finding.js';

export const integrityShape = z.object({
  state: z.enum(['exact', 'byte-swapped', 'line-endings', 'range-variant', 'damaged', 'absent']),
  stated: textShape,
  computed: textShape,
});

/** One read of a capture. */
export const checkedReadShape = z.object({
  machine: machineShape,
  clock: timeShape,
  /** What a reader appended to ST. */
  appendedAt: timeShape,
  receivedAt: timeShape,
  currency: currencyShape,
  decimals: decimalsShape,
  segments: z.object({ stated: z.int().nullable(), counted: z.int().min(0) }),
  integrity: integrityShape,
  complete: z.boolean(),
  columns: countShape.unwrap(),
});

/** What `check --json` prints: one object a file, or several for a file with very many reads. */
export const checkShape = z.object({
  file: z.string(),
  verdict: z.enum(['sound', 'doubtful', 'read-again']),
  /** The verdict and the one thing to do, in one line. */
  headline: z.string(),
  /** Number in the file of the first of `reads`: above 0 only for a later part of a file with very many reads. */
  firstRead: z.int().min(0),
  reads: z.array(checkedReadShape),
  findings: z.array(findingShape),
  general: generalShape,
});

/** See {@link checkShape}. */
export type CheckJson = z.infer<typeof checkShape>;
