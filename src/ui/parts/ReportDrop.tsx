import { useEffect, useState } from 'preact/hooks';
import type { Handing } from '../device.ts';
import type { Learner } from '../models/learner.ts';
import { Field } from './Field.tsx';
import type { MadeReport } from './ReportOut.tsx';

/** Where the folder of the instructor was last time; no password is kept. */
const KEPT = 'report-folder';

const SAID = {
  put: 'It lies in the folder.',
  same: 'It lies in the folder already.',
  other: 'Another file of this name lies in the folder: nothing was written over it. Make the report anew.',
} as const;

/** A report put in a folder that the instructor looks into, on the server that the app comes from. */
export function ReportDrop(props: {
  readonly learner: Learner;
  readonly made: MadeReport;
  readonly handing: Handing | null;
  readonly onSaid: (words: string) => void;
}) {
  const { learner, made, handing, onSaid } = props;
  const { device } = learner.store;
  const [address, setAddress] = useState('');
  const [user, setUser] = useState('');
  const [password, setPassword] = useState('');
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void device.get(KEPT).then(
      (kept) => typeof kept === 'string' && setAddress((typed) => (typed === '' ? kept : typed)),
      () => undefined,
    );
  }, [device]);
  const put = async () => {
    if (handing === null) return;
    setBusy(true);
    onSaid('');
    try {
      const place = { address, login: user === '' ? null : { user, password } };
      // The number tells two of one day apart.
      const name = made.name.replace(/(\.report\.txt)$/, `-${made.n}$1`);
      onSaid(SAID[await handing.drop(place, name, made.text)]);
      void device.put(KEPT, address).catch(() => undefined);
    } catch (error) {
      onSaid(error instanceof Error ? error.message : String(error));
    }
    setBusy(false);
  };
  return (
    <details>
      <summary class="button plain">Put it in your instructor's folder</summary>
      <form
        class="stack"
        onSubmit={(event) => {
          event.preventDefault();
          void put();
        }}
      >
        <p class="small">
          A WebDAV folder on the server that this app comes from; your instructor tells you its address. Whoever may
          open the folder can read the report.
        </p>
        <Field label="Address of the folder" value={address} onInput={setAddress} placeholder="/dav/reports/" />
        <Field label="User, if the folder asks for one" value={user} onInput={setUser} autocomplete="username" />
        {user !== '' && (
          <Field
            label="Password, not kept"
            value={password}
            onInput={setPassword}
            type="password"
            autocomplete="current-password"
          />
        )}
        <button type="submit" disabled={busy || handing === null || address.trim() === ''}>
          Put it there
        </button>
      </form>
    </details>
  );
}
