import { z } from 'zod';

// Small shapes that all outputs are made of. Null is not known, never 0.

/** Minor units of the currency that stands beside. */
export const moneyShape = z.int().nullable();
/** Pieces: vends, coins, segments. */
export const countShape = z.int().min(0).nullable();
export const textShape = z.string().nullable();
// As patterns: JSON Schema's format `date-time` (RFC 3339) wants a zone, which a machine's clock has not.
/** A date without a zone, such as `2026-11-24`. */
export const dateShape = z.string().regex(/^\d{4}-\d\d-\d\d$/);
/** Machine-local date and time without a zone, such as `2026-11-24T10:15:00`. */
export const timeShape = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d$/)
  .nullable();
/** Either of them. */
export const dateOrTimeShape = z
  .string()
  .regex(/^\d{4}-\d\d-\d\d(T\d\d:\d\d:\d\d)?$/)
  .nullable();
/** ISO 4217 alphabetic code. */
export const currencyShape = z
  .string()
  .regex(/^[A-Z]{3}$/)
  .nullable();
export const decimalsShape = z.int().min(0).max(6).nullable();

export const coinsAndBillsShape = z.object({ coins: moneyShape, bills: moneyShape });
export const overShortShape = coinsAndBillsShape.extend({ total: moneyShape });

/** The machine as it names itself, beside the operator's name for it. */
export const machineShape = z.object({
  /** The operator's own name; null when the roster has none for it. */
  name: textShape,
  location: textShape,
  asset: textShape,
  serial: textShape,
  /** Serial number of the control board. */
  board: textShape,
  model: textShape,
});
