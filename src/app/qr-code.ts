import { encode } from 'uqr';

/**
 * QR code of a text (ISO/IEC 18004), correction level M: read from a screen at arm's length.
 * @returns rows of modules, true is dark; without the margin of four
 * @throws Error where the text is longer than the largest code holds (some 2300 bytes)
 */
export const qrCode = (text: string): readonly (readonly boolean[])[] => encode(text, { ecc: 'M', border: 0 }).data;
