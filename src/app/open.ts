/**
 * open.html: the one page that may fetch from elsewhere. It shows where a linked deck comes from, asks, fetches, and
 * hands the text to the app, which checks it like any other file.
 */
import './open.css';
import { verifyDeck } from '../exchange/signature.ts';
import { putIncoming } from './incoming.ts';
import { fetchLinked, linkedAddress } from './linked-deck.ts';

const part = <T extends HTMLElement>(id: string, kind: new () => T): T => {
  const element = document.getElementById(id);
  if (!(element instanceof kind)) throw new Error(`open.html has no #${id}`);
  return element;
};

const saying = part('say', HTMLParagraphElement);
const facts = part('facts', HTMLDListElement);
const caution = part('caution', HTMLParagraphElement);
const button = part('fetch', HTMLButtonElement);

const say = (text: string): void => {
  saying.textContent = text;
};

const showAddress = (url: URL): void => {
  part('host', HTMLElement).textContent = url.host;
  part('address', HTMLElement).textContent = url.href;
};

/**
 * Who signed the deck, one line each.
 * @throws Error with words for people where a signature does not hold
 */
const signersOf = async (text: string): Promise<string[]> => {
  const found = await verifyDeck(text).catch((error: unknown) => {
    // No deck at all: the app has the words for it.
    if (error instanceof SyntaxError) return null;
    throw error;
  });
  if (found === null) return ['not known: this file is no deck as it stands'];
  const bad = found.find(({ valid }) => valid === false);
  if (bad !== undefined)
    throw new Error(
      `The signature of ${bad.name} does not fit this deck: it was changed after it was signed. Nothing was taken.`,
    );
  if (found.length === 0) return ['nobody: nothing proves who made it'];
  return found.map(
    ({ name, role, fingerprint: { letters }, valid }) =>
      `${name} (${role}), key ${letters}${valid === true ? '' : ': this browser cannot check it'}`,
  );
};

const showSigners = (lines: readonly string[]): void => {
  const place = part('signers', HTMLElement);
  place.replaceChildren(
    ...lines.map((line) => {
      const one = document.createElement('p');
      one.textContent = line;
      return one;
    }),
  );
  for (const name of ['signers', 'signed']) part(name, HTMLElement).hidden = false;
};

/** Waits for the one button. */
const pressed = (label: string): Promise<void> =>
  new Promise((done) => {
    button.textContent = label;
    button.hidden = false;
    button.addEventListener('click', () => done(), { once: true });
  });

const main = async (): Promise<void> => {
  const address = linkedAddress(location.hash);
  if (!address.ok) return say(address.error);
  const url = address.value;
  showAddress(url);
  facts.hidden = false;
  caution.hidden = false;
  say('A link asks for this deck to be fetched.');

  for (;;) {
    await pressed('Fetch it');
    button.hidden = true;
    say(`Fetching from ${url.host} …`);
    const fetched = await fetchLinked(url, fetch);
    if (!fetched.ok) {
      say(fetched.error);
      continue;
    }
    const source = new URL(fetched.value.from);
    if (source.href !== url.href) {
      showAddress(source);
      say(`${url.host} sent us on: the deck really comes from the address below.`);
    } else say(`The deck came from ${url.host}. Look who signed it before you go on.`);
    try {
      showSigners(await signersOf(fetched.value.text));
    } catch (error) {
      say(error instanceof Error ? error.message : String(error));
      continue;
    }
    await pressed(source.href === url.href ? 'Look at it in Recency' : 'Take it from there');
    try {
      putIncoming(sessionStorage, fetched.value);
    } catch {
      say('This browser lets the page store nothing. Save the file and open it in Recency instead.');
      continue;
    }
    location.assign('./?go=incoming');
    return;
  }
};

// Another link in the same tab changes the fragment alone.
window.addEventListener('hashchange', () => location.reload());
void main();
