// Bytes: what is done to raw bytes before anything is understood: CRC-16/ARC and text without loss.
// In: byte arrays. Out: numbers and text. Must not know: lines, segments.
export { crc16, formatCrc, swapCrcBytes } from './crc16.js';
export { decodeLatin1, encodeLatin1 } from './latin1.js';
