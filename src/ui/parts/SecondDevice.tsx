import { useEffect, useState } from 'preact/hooks';
import type { FolderFault, FolderFound, Place, SecondDeviceState } from '../../model/second-device.ts';
import type { Learner } from '../models/learner.ts';
import { exchange, exchangedWords, followExchanges, secondDeviceOf } from '../models/second-device.ts';
import { dayWords } from '../words.ts';
import { Field } from './Field.tsx';
import { Fold } from './Later.tsx';

/** What a task leaves to be said. */
interface Said {
  readonly lines: readonly string[];
  readonly failed: string;
  readonly fault: FolderFault | null;
}
const NOTHING: Said = { lines: [], failed: '', fault: null };

type Work = (task: () => Promise<readonly string[]>) => Promise<void>;

/** A folder on the app's own server that two devices of one learner share. */
export function SecondDevice(props: { readonly learner: Learner }) {
  const { learner } = props;
  const [state, setState] = useState<SecondDeviceState | null>();
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState(NOTHING);
  const look = async () => setState(await (await secondDeviceOf(learner)).state());
  useEffect(() => void look().catch(() => undefined), [learner]);
  const work: Work = async (task) => {
    setBusy(true);
    setSaid(NOTHING);
    try {
      setSaid({ ...NOTHING, lines: await task() });
    } catch (error) {
      const { message = String(error), fault = null } = error as { message?: string; fault?: FolderFault | null };
      setSaid({ ...NOTHING, failed: message, fault });
    }
    await look().catch(() => undefined);
    setBusy(false);
  };
  const shared = { learner, busy: busy || !learner.writing.value, work, fault: said.fault };
  return (
    <section aria-labelledby="second-device">
      <Fold
        title="Second device"
        id="second-device"
        said={state === null ? 'none: phone and tablet can share what you answered' : state && stateWords(state)}
      >
        {() => (
          <>
            {state === null && <Begin {...shared} />}
            {state !== null && state !== undefined && <InUse {...shared} state={state} told={said !== NOTHING} />}
            {busy && <progress class="wide" aria-label="At work with the folder" />}
            <div role="status" class="stack">
              {said.lines.map((line) => (
                <p class="note" key={line}>
                  {line}
                </p>
              ))}
            </div>
            {said.failed !== '' && (
              <p class="note bad" role="alert">
                {said.failed}
              </p>
            )}
          </>
        )}
      </Fold>
    </section>
  );
}

const stateWords = ({ failed, last, asksPassword }: SecondDeviceState): string =>
  failed !== null
    ? 'a folder is shared; the last try failed'
    : asksPassword !== null
      ? 'a folder is shared; it asks for the password'
      : last === null
        ? 'a folder is shared; nothing was exchanged yet'
        : 'a folder is shared';

interface Shared {
  readonly learner: Learner;
  readonly busy: boolean;
  readonly work: Work;
  readonly fault: FolderFault | null;
}

const FOUND: Readonly<Record<FolderFound, string>> = {
  empty: 'The folder is there and empty: it is begun by this device.',
  open: 'The folder is in use already, without a passphrase.',
  passphrase: 'The folder is in use already, with a passphrase: fill in the same one.',
};

function Begin({ learner, busy, work, fault }: Shared) {
  const [address, setAddress] = useState('');
  const [user, setUser] = useState('');
  const [password, setPassword] = useState('');
  const [keep, setKeep] = useState(false);
  const [passphrase, setPassphrase] = useState('');
  const place: Place = { address, login: user === '' ? null : { user, password } };
  const at = () => secondDeviceOf(learner);
  const begin = () =>
    work(async () => {
      await (await at()).begin(place, passphrase === '' ? null : passphrase, keep);
      followExchanges(learner);
      const did = await exchange(learner, true);
      return did === null ? [] : exchangedWords(did);
    });
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void begin();
      }}
    >
      <p>
        Phone and tablet can share what you answered through a WebDAV folder on the server that this app comes from.
        Each puts there what the other does not have. Without such a folder, save a copy and open it on the other
        device.
      </p>
      <Field label="Address of the folder" value={address} onInput={setAddress} placeholder="/dav/recency/" />
      <Field label="User, if the folder asks for one" value={user} onInput={setUser} autocomplete="username" />
      {user !== '' && (
        <>
          <Field
            label="Password"
            value={password}
            onInput={setPassword}
            type="password"
            autocomplete="current-password"
          />
          <label class="pick">
            <input type="checkbox" checked={keep} onChange={(event) => setKeep(event.currentTarget.checked)} />
            <span>
              Keep the password on this device
              <br />
              <span class="small soft">
                whoever can open this browser's data can read it; else it is asked each time
              </span>
            </span>
          </label>
        </>
      )}
      <Field
        label="Passphrase, if nobody else is to read the files"
        value={passphrase}
        onInput={setPassphrase}
        type="password"
        autocomplete="off"
      />
      <p class="small soft">
        At least 12 characters, the same on both devices. Without it nobody can read the files, and neither can you.
      </p>
      <div class="row">
        <button
          type="button"
          disabled={busy || address.trim() === ''}
          onClick={() => void work(async () => [FOUND[await (await at()).look(place)]])}
        >
          Test the address
        </button>
        {fault === 'missing' && (
          <button
            type="button"
            disabled={busy}
            onClick={() =>
              void work(async () => {
                await (await at()).make(place);
                return ['The folder was made.'];
              })
            }
          >
            Make the folder
          </button>
        )}
        <button type="submit" class="main" disabled={busy || address.trim() === ''}>
          Use this folder
        </button>
      </div>
    </form>
  );
}

function InUse(props: Shared & { readonly state: SecondDeviceState; readonly told: boolean }) {
  const { learner, busy, work, state, told } = props;
  const { device } = learner;
  const [password, setPassword] = useState('');
  const [stopping, setStopping] = useState(false);
  const year = new Date(learner.today() * 86_400_000).getUTCFullYear();
  const when = (at: number) => {
    const iso = new Date(at + device.off(at) * 60_000).toISOString();
    return `${dayWords(iso.slice(0, 10), year)}, ${iso.slice(11, 16)}`;
  };
  const at = () => secondDeviceOf(learner);
  const now = () =>
    work(async () => {
      if (password !== '') (await at()).tell(password);
      setPassword('');
      const did = await exchange(learner, true);
      return did === null ? [] : exchangedWords(did);
    });
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void now();
      }}
    >
      <p>
        This device exchanges with the folder {state.address}
        {state.hasPassphrase ? ', under a passphrase' : ''}: after the start, when the app goes out of sight, and here.
      </p>
      <p>{state.last === null ? 'Nothing was exchanged yet.' : `Last exchanged on ${when(state.last.at)}.`}</p>
      {!told && state.last !== null && exchangedWords(state.last.did).map((line) => <p key={line}>{line}</p>)}
      {!told && state.failed !== null && (
        <p class="note warn">
          The last try failed: {state.failed.why} It is tried again by itself after {when(state.failed.again)}.
        </p>
      )}
      {state.asksPassword !== null && (
        <Field
          label={`Password of ${state.asksPassword}`}
          value={password}
          onInput={setPassword}
          type="password"
          autocomplete="current-password"
        />
      )}
      <div class="row">
        <button type="submit" class="main" disabled={busy || (state.asksPassword !== null && password === '')}>
          Exchange now
        </button>
        {!stopping && (
          <button type="button" disabled={busy} onClick={() => setStopping(true)}>
            Stop using the folder
          </button>
        )}
      </div>
      {stopping && (
        <div class="stack">
          <p>
            Its files stay on the server, and everything stays on this device. Address, password and keys are forgotten
            here.
          </p>
          <div class="row">
            <button
              type="button"
              disabled={busy}
              onClick={() =>
                void work(async () => {
                  await (await at()).stop();
                  return ['The folder is no longer used by this device.'];
                })
              }
            >
              Stop using it
            </button>
            <button type="button" class="plain" onClick={() => setStopping(false)}>
              Go on using it
            </button>
          </div>
        </div>
      )}
    </form>
  );
}
