/** Reads a body up to a number of bytes. Null when it is longer. */
export const readAtMost = async (body: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array | null> => {
  const reader = body.getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.byteLength;
    if (length > most) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.byteLength;
  }
  return whole;
};
