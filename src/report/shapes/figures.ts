import { z } from 'zod';

// Small shapes that all outputs are made of. Null is not known, never 0.

/** Minor units of the currency that stands beside. */
export const moneyShape = z.int().nullable();
/** Pieces: vends, coins, segments. */
export const countShape = z.int().min(0).nullable();
export const textShape = z.string().nullable();
/** Machine-local date and time, without a zone. */
export const timeShape = z.iso.datetime({ local: true }).nullable();
export const dateOrTimeShape = z.union([z.iso.datetime({ local: true }), z.iso.date()]).nullable();
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
  model: textShape,
});
