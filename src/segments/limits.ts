/** Longest segment taken in whole, in bytes without its line ending. What goes beyond is skipped, with a finding. */
export const LONGEST_SEGMENT = 65_536;
