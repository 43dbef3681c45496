import * as z from 'zod';

const text = z.string().nullable();
const yesOrNo = z.boolean().nullable();

/** Where a row of an office sheet came from. */
export const sheetPlaceSchema = z.object({ file: z.string(), row: z.int() });

/** A row of the plan as the book remembers it. */
export const planRowSchema = z.object({
  machine: z.string(),
  column: z.string(),
  product: text,
  price: z.int().nullable(),
  cardPrice: z.int().nullable(),
  par: z.int().nullable(),
  capacity: z.int().nullable(),
  from: text,
  place: sheetPlaceSchema,
});

/** A row of the roster as the book keeps it: with a closing, and of the machines that it remembers. */
export const machineRowSchema = z.object({
  machine: z.string(),
  asset: text,
  serial: text,
  location: text,
  route: text,
  driver: text,
  currency: text,
  decimals: z.int().nullable(),
  hasCash: yesOrNo,
  hasBills: yesOrNo,
  hasCard: yesOrNo,
  profile: text,
  active: yesOrNo,
  commission: z.number().nullable(),
  commissionBase: z.enum(['gross', 'net']).nullable(),
  tax: z.number().nullable(),
  taxIncluded: yesOrNo,
  place: sheetPlaceSchema,
});
