import type { Learner } from '../models/learner.ts';
import type { DraftModel } from './model/draft.ts';
import type { Live } from './model/live.ts';
import { Overview } from './pages/Overview.tsx';

export interface PageProps {
  readonly learner: Learner;
  readonly draft: DraftModel;
  readonly live: Live;
}

/** What a page of a draft shows. */
export function PageOf(props: PageProps & { readonly page: string }) {
  const { page, ...rest } = props;
  const [section = '', index = ''] = page.split('/');
  switch (`${section}${index === '' ? '' : '/'}`) {
    case '':
      return <Overview {...rest} />;
    default:
      return <p>There is no such page. Choose one from the contents.</p>;
  }
}
