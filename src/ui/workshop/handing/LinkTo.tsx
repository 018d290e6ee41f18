import { useEffect, useState } from 'preact/hooks';
import type { Handing } from '../../device.ts';
import type { Learner } from '../../models/learner.ts';
import { type Modules, QrCode } from '../../parts/QrCode.tsx';
import type { DraftModel } from '../model/draft.ts';
import { deckAddress } from './ready.ts';

/** A link that opens the app with the deck, and the same as a code for a camera. */
export function LinkTo(props: { readonly learner: Learner; readonly draft: DraftModel; readonly handing: Handing }) {
  const { learner, draft, handing } = props;
  const { address: kept } = draft.side.value;
  const written = typeof kept === 'string' ? kept : '';
  const read = written.trim() === '' ? null : deckAddress(written);
  const link = read !== null && 'url' in read ? handing.linkTo(read.url) : null;
  const [code, setCode] = useState<Modules | null>(null);
  const [said, setSaid] = useState('');
  useEffect(() => {
    setCode(null);
    setSaid('');
    if (link !== null) learner.device.qrCode(link).then(setCode, () => setSaid('The link is too long for a QR code.'));
  }, [learner, link]);
  return (
    <section class="stack rule">
      <h2>As a link</h2>
      <p class="small soft">
        Put the saved file where others may fetch it, under an address that begins with https:// and lets other sites
        read it (CORS). The link opens Recency, which shows where the deck comes from and who signed it.
      </p>
      <label class="field">
        Address of the file
        <input
          type="url"
          inputMode="url"
          placeholder="https://"
          value={written}
          onInput={(event) => draft.putSide('address', event.currentTarget.value)}
        />
      </label>
      {read !== null && 'problem' in read && <p class="note warn">{read.problem}</p>}
      {link !== null && (
        <>
          <p>
            <a href={link}>{link}</a>
          </p>
          <button
            type="button"
            onClick={() =>
              void handing.copy(link).then(
                () => setSaid('Copied.'),
                () => setSaid('The browser did not allow it: mark the link and copy it by hand.'),
              )
            }
          >
            Copy the link
          </button>
          {code !== null && <QrCode code={code} />}
        </>
      )}
      <p role="status">{said}</p>
    </section>
  );
}
