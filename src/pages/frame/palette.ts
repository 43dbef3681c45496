/** The colours of the pages, by what they are for. Each has its name in the style sheet: `ink` is `var(--ink)`. */
export interface Palette {
  readonly paper: string;
  readonly panel: string;
  readonly ink: string;
  /** Text that matters less. */
  readonly faint: string;
  /** Rules between rows: decoration only. */
  readonly rule: string;
  /** Edges of what can be used, and axes of charts. */
  readonly edge: string;
  readonly link: string;
  readonly focus: string;
  readonly bad: string;
  readonly badPaper: string;
  readonly warn: string;
  readonly warnPaper: string;
  readonly good: string;
  readonly goodPaper: string;
  /** Shapes of charts, side by side; each also has a word or a pattern. */
  readonly shape1: string;
  readonly shape2: string;
  readonly shape3: string;
  readonly shape4: string;
  readonly shape5: string;
}

/** For light surroundings and for paper. */
export const LIGHT: Palette = {
  paper: '#fcfbf8',
  panel: '#f1eee7',
  ink: '#1c2227',
  faint: '#4c565e',
  rule: '#d3cec3',
  edge: '#767b80',
  link: '#0b4a6b',
  focus: '#8a3d00',
  bad: '#8b1a1a',
  badPaper: '#fae8e5',
  warn: '#684400',
  warnPaper: '#fbefd2',
  good: '#1d5030',
  goodPaper: '#e4f1e6',
  shape1: '#1f6a8c',
  shape2: '#a2591b',
  shape3: '#4d7a3a',
  shape4: '#7a4f9a',
  shape5: '#a8324a',
};

/** For dark surroundings. */
export const DARK: Palette = {
  paper: '#15191d',
  panel: '#20262c',
  ink: '#ebe8e1',
  faint: '#b5bbc1',
  rule: '#3a424a',
  edge: '#8b9298',
  link: '#93cbea',
  focus: '#ffc27d',
  bad: '#ffb3a6',
  badPaper: '#3b1c19',
  warn: '#f2cf82',
  warnPaper: '#36290e',
  good: '#a6dbb2',
  goodPaper: '#183022',
  shape1: '#6fb7d8',
  shape2: '#e0a060',
  shape3: '#94c47e',
  shape4: '#c29be0',
  shape5: '#ec8699',
};

/** Text and the grounds it stands on, as the style sheet pairs them: WCAG asks for 4.5 to 1. */
export const TEXT_PAIRS: readonly (readonly [keyof Palette, keyof Palette])[] = [
  ['ink', 'paper'],
  ['ink', 'panel'],
  ['faint', 'paper'],
  ['faint', 'panel'],
  ['link', 'paper'],
  ['link', 'panel'],
  ['bad', 'paper'],
  ['bad', 'panel'],
  ['bad', 'badPaper'],
  ['ink', 'badPaper'],
  ['faint', 'badPaper'],
  ['link', 'badPaper'],
  ['warn', 'paper'],
  ['warn', 'panel'],
  ['warn', 'warnPaper'],
  ['ink', 'warnPaper'],
  ['faint', 'warnPaper'],
  ['link', 'warnPaper'],
  ['good', 'paper'],
  ['good', 'panel'],
  ['good', 'goodPaper'],
  ['ink', 'goodPaper'],
];

/** Shapes and edges that carry meaning, and their grounds: WCAG asks for 3 to 1. */
export const SHAPE_PAIRS: readonly (readonly [keyof Palette, keyof Palette])[] = (
  ['edge', 'focus', 'shape1', 'shape2', 'shape3', 'shape4', 'shape5'] as const
).flatMap((shape) => [
  [shape, 'paper'],
  [shape, 'panel'],
]);
