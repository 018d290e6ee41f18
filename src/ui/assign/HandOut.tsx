import { useEffect, useState } from 'preact/hooks';
import type { Assignment } from '../../model/assignment.ts';
import type { Assigning, Handing } from '../device.ts';
import type { Learner } from '../models/learner.ts';
import { type Modules, QrCode } from '../parts/QrCode.tsx';
import { type AssignmentDraft, fileName, handedOut } from './drafts.ts';

/** A file, a link, or the link's code. Whatever leaves the device is numbered first. */
export function HandOut(props: {
  readonly learner: Learner;
  readonly port: Assigning;
  readonly draft: AssignmentDraft;
  /** As it goes out. */
  readonly assignment: Assignment;
  /** Content ids of what comes with the app; null: not known yet. */
  readonly shipped: ReadonlySet<string> | null;
  /** Resolves when it is kept. */
  readonly onChange: (draft: AssignmentDraft) => Promise<void>;
}) {
  const { learner, port, draft, assignment, shipped, onChange } = props;
  const [handing, setHanding] = useState<Handing | null>(null);
  const [link, setLink] = useState<string | null>(null);
  const [code, setCode] = useState<Modules | null>(null);
  const [said, setSaid] = useState('');
  useEffect(() => {
    learner.device
      .handing()
      .then(setHanding, () => setSaid('The part of the app that hands it out could not be loaded.'));
  }, [learner]);
  const name = fileName(assignment);
  const text = port.write(assignment);
  // Numbered, it says the same as before: what is shown stays.
  useEffect(() => {
    let left = false;
    setCode(null);
    port.link(assignment).then(
      (made) => left || setLink(made),
      () => undefined,
    );
    return () => {
      left = true;
    };
  }, [port, text]);
  const isOut = draft.handed?.n === assignment.n;
  const number = () => (isOut ? Promise.resolve() : onChange(handedOut(draft, assignment)));
  const save = async () => {
    handing?.download(name, text);
    setSaid(`Saved as ${name}.`);
    await number();
  };
  const share = async () => {
    try {
      if ((await handing?.share(name, text)) !== true) return setSaid('');
      setSaid('Handed over.');
      await number();
    } catch {
      setSaid('It could not be shared from here. Save the file and send that.');
    }
  };
  const copy = async () => {
    if (handing === null || link === null) return;
    try {
      await handing.copy(link);
      setSaid('Copied.');
    } catch {
      setSaid('The browser did not allow it: mark the link and copy it by hand.');
    }
    await number();
  };
  const show = async () => {
    if (link === null) return;
    try {
      setCode(await learner.device.qrCode(link));
      setSaid('The code of the link is shown below.');
      await number();
    } catch {
      setSaid('The link is too long for a QR code: send the file or the link.');
    }
  };
  const toSend = assignment.decks.filter(
    ({ address, contentId }) => address === undefined && shipped?.has(contentId) === false,
  );
  return (
    <section class="stack rule">
      <h2>Hand it out</h2>
      <p>
        {isOut
          ? `This is number ${assignment.n}, as it was handed out. A change makes it number ${assignment.n + 1}, which amends it.`
          : assignment.n === 1
            ? 'It goes out as number 1. A later change goes out under the next number and amends it.'
            : `It was changed since number ${assignment.n - 1} was handed out: it goes out as number ${assignment.n}, which amends that.`}
      </p>
      {toSend.length > 0 && (
        <p class="small soft">
          Send the {toSend.length === 1 ? 'deck file' : 'deck files'} along:{' '}
          {toSend.map(({ title }) => title).join('; ')}. No address is given, and{' '}
          {toSend.length === 1 ? 'it does' : 'they do'} not come with the app.
        </p>
      )}
      <p class="small soft">
        <code>{name}</code>
      </p>
      <div class="row">
        <button type="button" class="main" disabled={handing === null} onClick={() => void save()}>
          Save the file
        </button>
        {handing?.canShare() === true && (
          <button type="button" onClick={() => void share()}>
            Share it
          </button>
        )}
        <button type="button" disabled={handing === null || link === null} onClick={() => void copy()}>
          Copy the link
        </button>
        <button type="button" disabled={link === null} onClick={() => void show()}>
          Show the QR code
        </button>
      </div>
      <p role="status">{said}</p>
      {code !== null && link !== null && (
        <>
          <QrCode code={code} />
          <p class="small">
            <a href={link}>{link}</a>
          </p>
        </>
      )}
      <p class="note">Anyone who has it can read it: no names in it. Hand out only what your operator lets you copy.</p>
    </section>
  );
}
