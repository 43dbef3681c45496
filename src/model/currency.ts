/** One currency of ISO 4217. */
export interface Currency {
  /** Alphabetic code, such as `EUR`. */
  readonly alpha: string;
  /** Numeric code with its leading zeros, such as `978`. */
  readonly numeric: string;
  /** How many decimals its minor unit has. */
  readonly decimals: number;
}

/**
 * ISO 4217, list one, as published 2024-06-25: alphabetic and numeric code by number of decimals. Units that have no
 * minor unit there ("N.A.": metals, funds, test codes) are left out, since nothing is paid with them. XCG is from memory:
 * in 2025 it took the place, and the number, of ANG, and stands after it so that the number leads to it.
 */
const CODES_BY_DECIMALS: Readonly<Record<number, string>> = {
  0: `
    BIF 108, CLP 152, DJF 262, GNF 324, ISK 352, JPY 392, KMF 174, KRW 410, PYG 600, RWF 646, UGX 800, UYI 940,
    VND 704, VUV 548, XAF 950, XOF 952, XPF 953`,
  2: `
    AED 784, AFN 971, ALL 008, AMD 051, ANG 532, XCG 532, AOA 973, ARS 032, AUD 036, AWG 533, AZN 944, BAM 977,
    BBD 052, BDT 050, BGN 975, BMD 060, BND 096, BOB 068, BOV 984, BRL 986, BSD 044, BTN 064, BWP 072, BYN 933,
    BZD 084, CAD 124, CDF 976, CHE 947, CHF 756, CHW 948, CNY 156, COP 170, COU 970, CRC 188, CUC 931, CUP 192,
    CVE 132, CZK 203, DKK 208, DOP 214, DZD 012, EGP 818, ERN 232, ETB 230, EUR 978, FJD 242, FKP 238, GBP 826,
    GEL 981, GHS 936, GIP 292, GMD 270, GTQ 320, GYD 328, HKD 344, HNL 340, HTG 332, HUF 348, IDR 360, ILS 376,
    INR 356, IRR 364, JMD 388, KES 404, KGS 417, KHR 116, KPW 408, KYD 136, KZT 398, LAK 418, LBP 422, LKR 144,
    LRD 430, LSL 426, MAD 504, MDL 498, MGA 969, MKD 807, MMK 104, MNT 496, MOP 446, MRU 929, MUR 480, MVR 462,
    MWK 454, MXN 484, MXV 979, MYR 458, MZN 943, NAD 516, NGN 566, NIO 558, NOK 578, NPR 524, NZD 554, PAB 590,
    PEN 604, PGK 598, PHP 608, PKR 586, PLN 985, QAR 634, RON 946, RSD 941, RUB 643, SAR 682, SBD 090, SCR 690,
    SDG 938, SEK 752, SGD 702, SHP 654, SLE 925, SOS 706, SRD 968, SSP 728, STN 930, SVC 222, SYP 760, SZL 748,
    THB 764, TJS 972, TMT 934, TOP 776, TRY 949, TTD 780, TWD 901, TZS 834, UAH 980, USD 840, USN 997, UYU 858,
    UZS 860, VED 926, VES 928, WST 882, XCD 951, YER 886, ZAR 710, ZMW 967, ZWG 924`,
  3: `
    BHD 048, IQD 368, JOD 400, KWD 414, LYD 434, OMR 512, TND 788`,
  4: `
    CLF 990, UYW 927`,
};

function listCurrencies(): Currency[] {
  return Object.entries(CODES_BY_DECIMALS).flatMap(([decimals, codes]) =>
    codes.split(',').map((pair) => {
      const [alpha, numeric] = pair.trim().split(' ') as [string, string];
      return { alpha, numeric, decimals: Number(decimals) };
    }),
  );
}

/** Every currency one can pay with. */
export const CURRENCIES: readonly Currency[] = listCurrencies();

const BY_ALPHA = new Map(CURRENCIES.map((currency) => [currency.alpha, currency]));
const BY_NUMERIC = new Map(CURRENCIES.map((currency) => [currency.numeric, currency]));

/**
 * Look a currency up by its alphabetic code, in any case.
 *
 * @returns null when ISO 4217 has no such currency
 * @example currencyByAlpha('eur') // { alpha: 'EUR', numeric: '978', decimals: 2 }
 */
export function currencyByAlpha(code: string): Currency | null {
  return BY_ALPHA.get(code.toUpperCase()) ?? null;
}

/**
 * Look a currency up by its numeric code, with or without its leading zeros.
 *
 * @param code - one to three digits, as text or number
 * @returns null when it is no number of ISO 4217, which in a capture is no fault: some makers put a country code there
 * @example currencyByNumeric('8') // { alpha: 'ALL', numeric: '008', decimals: 2 }
 */
export function currencyByNumeric(code: string | number): Currency | null {
  return BY_NUMERIC.get(String(code).padStart(3, '0')) ?? null;
}
