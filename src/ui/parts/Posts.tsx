import { Fragment } from 'preact';
import { DEFAULT_CREW } from '../../model/deck.ts';
import { Text } from './Text.tsx';

const DUTIES: ReadonlySet<string | undefined> = new Set(DEFAULT_CREW.map(({ label }) => label));

/**
 * Where both are named on a screen: PF and PM are duties and change, a captain stays one. Nothing where only one is.
 * @param props.labels of the crew, as shown
 */
export function Posts(props: { readonly labels: readonly (string | undefined)[] }) {
  const posts = [...new Set(props.labels.filter((label) => label !== undefined && !DUTIES.has(label)))];
  if (posts.length === 0 || !props.labels.some((label) => DUTIES.has(label))) return null;
  return (
    <span class="small soft">
      PF and PM are duties of the day.{' '}
      {posts.map((post, i) => (
        <Fragment key={post}>
          {i > 0 && ', '}
          <Text text={post ?? ''} />
        </Fragment>
      ))}
      : named by post, whoever flies.
    </span>
  );
}
