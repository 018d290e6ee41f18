import { useEffect, useState } from 'preact/hooks';
import type { Handing } from '../device.ts';
import type { Learner } from '../models/learner.ts';
import { ReportDrop } from './ReportDrop.tsx';

/** A report that is made, and not yet out of hand. */
export interface MadeReport {
  readonly name: string;
  readonly text: string;
  readonly n: number;
}

/** Ways for a report to leave: other apps, a file, a mail that it is attached to by hand, a folder. */
export function ReportOut(props: { readonly learner: Learner; readonly made: MadeReport }) {
  const { learner, made } = props;
  const [handing, setHanding] = useState<Handing | null>(null);
  const [said, setSaid] = useState('');
  useEffect(() => {
    learner.device
      .handing()
      .then(setHanding, () =>
        setSaid('The part of the app that hands files over could not be loaded. Are you online?'),
      );
  }, [learner]);
  useEffect(() => setSaid(''), [made]);
  const share = async () => {
    try {
      setSaid((await handing?.share(made.name, made.text)) === true ? 'Handed over.' : '');
    } catch {
      setSaid('It could not be shared from here. Save the file and send that.');
    }
  };
  const save = () => {
    handing?.download(made.name, made.text);
    setSaid(`Saved as ${made.name}.`);
  };
  const canShare = handing?.canShare() === true;
  return (
    <section class="stack note good">
      <h2>Report number {made.n} is made</h2>
      <p>
        <code>{made.name}</code>, {Math.max(1, Math.round(made.text.length / 1000))} kB. It leaves this device by your
        hand alone.
      </p>
      <div class="row">
        {canShare && (
          <button type="button" class="main" onClick={() => void share()}>
            Share it
          </button>
        )}
        <button type="button" class={canShare ? '' : 'main'} disabled={handing === null} onClick={save}>
          Save the file
        </button>
        <a class="button" href={mailOf(made)}>
          Begin a mail
        </a>
      </div>
      <p class="small">
        A mail that an app begins carries no file: save the report first, then attach it. Send it as it is; a report
        that was changed is not taken.
      </p>
      <ReportDrop learner={learner} made={made} handing={handing} onSaid={setSaid} />
      <p role="status">{said}</p>
    </section>
  );
}

/** RFC 6068: such an address names subject and text; it cannot attach. */
const mailOf = ({ name }: MadeReport): string => {
  const subject = `Progress report ${name.replace(/\.report\.txt$/, '')}`;
  const body = [
    'My progress report of Recency is attached.',
    '',
    `(Before you send this: attach the file ${name}, which you saved.)`,
  ].join('\r\n');
  return `mailto:?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body)}`;
};
