/**
 * An assignment in the fragment of a link, which no server sees: `#assignment=` and the base64url of its JSON under
 * DEFLATE (RFC 1951); `#assignment-plain=` and the base64url of the JSON itself from a browser that cannot compress.
 */
import { fail, ok, type Result } from '../lib/result.ts';
import type { Assignment } from '../model/assignment.ts';
import { fromBase64url, fromUtf8, toBase64url, utf8 } from './base64url.ts';
import { readAtMost } from './read-at-most.ts';

const PACKED = '#assignment=';
const PLAIN = '#assignment-plain=';
/** Bytes of JSON: what is packed may grow a thousand times. One more than is read, so that it is refused as too large. */
const MOST_BYTES = 64_001;

type Format = 'deflate-raw';
type Stream = new (format: Format) => ReadableWritablePair<Uint8Array, BufferSource>;
type Streams = { readonly CompressionStream?: Stream; readonly DecompressionStream?: Stream };

/** @returns null where there is none, or none of this format */
const streamOf = (Made: Stream | undefined): ReadableWritablePair<Uint8Array, BufferSource> | null => {
  try {
    return Made === undefined ? null : new Made('deflate-raw');
  } catch {
    return null;
  }
};

const through = (
  bytes: Uint8Array<ArrayBuffer>,
  stream: ReadableWritablePair<Uint8Array, BufferSource>,
): ReadableStream<Uint8Array> =>
  new ReadableStream<BufferSource>({
    start: (to) => {
      to.enqueue(bytes);
      to.close();
    },
  }).pipeThrough(stream);

/** With its `#`. @param streams those of the browser; tests bring others */
export const assignmentFragment = async (
  assignment: Assignment,
  streams: Streams = globalThis as Streams,
): Promise<string> => {
  const bytes = utf8(JSON.stringify(assignment));
  const stream = streamOf(streams.CompressionStream);
  if (stream === null) return PLAIN + toBase64url(bytes);
  const packed = await readAtMost(through(bytes, stream), Number.POSITIVE_INFINITY);
  return PACKED + toBase64url(packed ?? bytes);
};

const DAMAGED =
  'This link is not whole: perhaps it was cut off or changed on the way. Ask for a new one, or for the file.';

/**
 * The text of the assignment in a fragment, not looked at. Null: the fragment names none.
 * @param hash with its `#`
 */
export const assignmentInFragment = async (
  hash: string,
  streams: Streams = globalThis as Streams,
): Promise<Result<string, string> | null> => {
  const marker = [PACKED, PLAIN].find((one) => hash.startsWith(one));
  if (marker === undefined) return null;
  const bytes = fromBase64url(hash.slice(marker.length));
  if (bytes === null || bytes.length === 0) return fail(DAMAGED);
  let plain: Uint8Array | null = bytes;
  if (marker === PACKED) {
    const stream = streamOf(streams.DecompressionStream);
    if (stream === null) return fail('This browser cannot unpack the link. Update it, or ask for the file instead.');
    try {
      plain = await readAtMost(through(bytes, stream), MOST_BYTES);
    } catch {
      return fail(DAMAGED);
    }
    if (plain === null)
      return fail('What this link holds is larger than an assignment ever is. Ask for the file instead.');
  }
  const text = fromUtf8(plain);
  return text === null ? fail(DAMAGED) : ok(text);
};
