/**
 * open.html: the one page that may fetch from elsewhere. It shows where a linked deck comes from, asks, fetches, and
 * hands the text to the app, which checks it like any other file. An assignment is in the link itself and goes to the
 * app at once; the app comes back for its decks once the trainee has agreed there.
 */
import './open.css';
import { assignmentInFragment } from '../exchange/assignment-link.ts';
import { verifyDeck } from '../exchange/signature.ts';
import type { Fetched } from '../ui/device.ts';
import { putFetched, takeAsk } from './assigned.ts';
import { putIncoming } from './incoming.ts';
import { fetchLinked, linkedAddress, ownLink } from './linked-deck.ts';

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

const CANNOT_KEEP = 'This browser lets the page store nothing. Save the file and open it in Recency instead.';

const handAssignment = (text: string): void => {
  try {
    putIncoming(sessionStorage, { from: 'the link', text });
    location.replace('./?go=incoming');
  } catch {
    say(CANNOT_KEEP);
  }
};

const titled = (title: string): void => {
  part('title', HTMLHeadingElement).textContent = title;
  document.title = `${title} · Recency`;
};

/** What the trainee agreed to in the app, one after the other; what fails is told there. */
const fetchAssigned = async (): Promise<void> => {
  titled('Fetching the assigned decks');
  const ask = takeAsk(sessionStorage);
  if (ask === null) return say('Nothing is left to fetch. Go back to Recency and open the assignment again.');
  const decks: Record<string, Fetched['decks'][string]> = {};
  for (const [i, address] of ask.addresses.entries()) {
    const url = linkedAddress(`#deck=${address}`);
    if (url.ok) say(`Deck ${i + 1} of ${ask.addresses.length}, from ${url.value.host} …`);
    const fetched = url.ok ? await fetchLinked(url.value, fetch) : url;
    decks[address] = fetched.ok ? { text: fetched.value.text } : { why: fetched.error };
  }
  try {
    putFetched(sessionStorage, ask.text, { choices: ask.choices, decks });
  } catch {
    return say('This browser has no room to hand the decks over. Ask for their files and open them one by one.');
  }
  handAssignment(ask.text);
};

const main = async (): Promise<void> => {
  // A link to this very page that another app shared with Recency.
  const own = ownLink(location.hash, location.href);
  if (own !== null) return location.replace(own);
  if (location.hash === '#assigned') return fetchAssigned();
  const assigned = await assignmentInFragment(location.hash);
  if (assigned !== null) {
    titled('Open an assignment');
    return assigned.ok ? handAssignment(assigned.value) : say(assigned.error);
  }
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
      say(CANNOT_KEEP);
      continue;
    }
    location.assign('./?go=incoming');
    return;
  }
};

// Another link in the same tab changes the fragment alone.
window.addEventListener('hashchange', () => location.reload());
void main();
