/** The other pilot's voice: one that the device itself has; nothing is ever sent away to be spoken. */
export interface Voice {
  say(text: string): void;
  stop(): void;
}

/** ms that a browser is given to list its voices. */
const PATIENCE = 1500;

/**
 * @param language BCP 47 of the deck
 * @returns null where the device has no voice of its own for it, or lets nobody speak
 */
export const localVoice = async (language: string): Promise<Voice | null> => {
  try {
    const { speechSynthesis: speech } = window;
    if (speech === undefined || typeof SpeechSynthesisUtterance === 'undefined') return null;
    const wanted = (language.split('-', 1)[0] ?? '').toLowerCase();
    const find = () =>
      speech.getVoices().find(({ localService, lang }) => localService && lang.toLowerCase().startsWith(wanted));
    const voice = find() ?? (await whenListed(speech, find));
    return voice === undefined ? null : speaker(speech, voice);
  } catch {
    return null;
  }
};

const whenListed = (speech: SpeechSynthesis, find: () => SpeechSynthesisVoice | undefined) =>
  new Promise<SpeechSynthesisVoice | undefined>((done) => {
    const end = () => {
      clearTimeout(timer);
      speech.removeEventListener('voiceschanged', look);
      done(find());
    };
    const look = () => {
      if (find() !== undefined) end();
    };
    const timer = setTimeout(end, PATIENCE);
    speech.addEventListener('voiceschanged', look);
  });

const speaker = (speech: SpeechSynthesis, voice: SpeechSynthesisVoice): Voice => ({
  say: (text) => {
    // Blocked, or busy: what is said stands on the screen all the same.
    try {
      const words = new SpeechSynthesisUtterance(text);
      words.voice = voice;
      words.lang = voice.lang;
      words.rate = 1.1;
      speech.speak(words);
    } catch {}
  },
  stop: () => {
    try {
      speech.cancel();
    } catch {}
  },
});
