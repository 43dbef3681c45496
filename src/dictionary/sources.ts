/** The published documents the dictionary rests on; MEMORY marks what could not be checked against one. */
export const MEMORY = 'memory';
export const X12 = 'ANSI ASC X12 control segments (ST, SE, G85)';
export const L0190D = 'AMS Epic/Sensit 3 manual L0190D, p. 42';
export const L0118P = 'AMS Sensit 3 VCB operation and service manual L0118P-SP, p. 62';
export const SAECO_400 = 'Saeco Freestanding 400 use and maintenance manual, p. 29';
export const LAVAZZA_LB2000 = 'Lavazza Blue LB 2000 manual 83356 (March 2005), section 15.2';
export const WITTERN = 'Wittern WendNet Combo series programming manual, section DEX/UCS';
export const CRANE_INFINITY = 'Crane Autobar Infinity operators manual, p. 33';
