/** Signatures of decks as screens show them; src/exchange/signature.ts makes and checks them. */

/** Who signs: whoever wrote the deck, or a second person who checked it. */
export type Role = 'author' | 'checker';

export interface Signer {
  readonly role: Role;
  /** As the signer wrote it, 1 to 80 characters: nothing proves it but the key. */
  readonly name: string;
  /** ISO date, as the signer's device said. */
  readonly date: string;
}

/** A public key as two people can compare it. */
export interface Fingerprint {
  /** "ABCD EFGH IJKL MNOP". */
  readonly letters: string;
  /** The same, one word a letter: "Alfa Bravo …". */
  readonly spelled: string;
}

export interface SignatureFound extends Signer {
  /** SHA-256 thumbprint of the public key (RFC 7638), base64url. */
  readonly key: string;
  readonly fingerprint: Fingerprint;
  /** `unknown`: this browser cannot check it. */
  readonly valid: boolean | 'unknown';
}
