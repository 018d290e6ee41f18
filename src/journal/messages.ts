import type { JournalContent } from '../model/ports.ts';

/** What the client asks its worker. Answered in the order asked. */
export type Request =
  | { readonly do: 'open'; readonly folder: string }
  | { readonly do: 'append'; readonly text: string }
  | { readonly do: 'count' }
  | { readonly do: 'read' }
  | { readonly do: 'replace'; readonly text: string }
  | { readonly do: 'close' };

export interface Asked {
  readonly call: number;
  readonly request: Request;
}

export interface Answers {
  /** Whether there is such storage here. */
  open: boolean;
  append: undefined;
  count: { readonly entries: number; readonly decks: number; readonly damaged: number };
  read: JournalContent;
  replace: undefined;
  close: undefined;
}

export interface Answered {
  readonly call: number;
  readonly value?: unknown;
  /** Present when it failed. */
  readonly error?: string;
}
