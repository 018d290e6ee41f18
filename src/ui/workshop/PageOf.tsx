import type { Learner } from '../models/learner.ts';
import type { DraftModel } from './model/draft.ts';
import type { Live } from './model/live.ts';
import { Overview } from './pages/Overview.tsx';
import { Try } from './pages/Try.tsx';

export interface PageProps {
  readonly learner: Learner;
  readonly draft: DraftModel;
  readonly live: Live;
}

/** What a page of a draft shows. */
export function PageOf(props: PageProps & { readonly page: string }) {
  const { page, ...rest } = props;
  switch (page.split('/')[0]) {
    case '':
      return <Overview {...rest} />;
    case 'try':
      return <Try {...props} />;
    default:
      return <p>There is no such page. Choose one from the contents.</p>;
  }
}
