/** Reports as screens use them: the device's key, and one door to signing. */
import { toBase64url } from './base64url.ts';
import { fingerprintOf, thumbprint } from './fingerprint.ts';
import { makeDeviceKey, signReport } from './report.ts';

export const reports = {
  makeKey: async () => {
    const key = await makeDeviceKey();
    const print = await thumbprint(key.x);
    return { ...key, key: toBase64url(print), fingerprint: fingerprintOf(print) };
  },
  sign: signReport,
};
