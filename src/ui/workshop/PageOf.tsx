import { textOf } from '../../draft/nodes.ts';
import type { Learner } from '../models/learner.ts';
import { lazy } from '../parts/lazy.tsx';
import { go } from '../route.ts';
import {
  AreasForm,
  ConditionsForm,
  CrewForm,
  DayForm,
  HeadForm,
  LimitForm,
  PacedForm,
  SourcesForm,
  VariantsForm,
} from './forms/DeckForms.tsx';
import { ScenarioForm } from './forms/ScenarioForm.tsx';
import type { DraftModel } from './model/draft.ts';
import type { Live } from './model/live.ts';
import { Limits } from './pages/Limits.tsx';
import { Overview } from './pages/Overview.tsx';
import { Try } from './pages/Try.tsx';
import { AskedHere } from './parts/AskedHere.tsx';
import { ThingTail } from './parts/ThingTail.tsx';
import { ProcedurePage } from './procedure/ProcedurePage.tsx';
import { revisionsOf } from './revisions.ts';

const ScenarioBench = lazy(() => import('./bench/ScenarioBench.tsx').then((module) => module.ScenarioBench), 'part');
const Paste = lazy(() => import('./pages/Paste.tsx').then((module) => module.Paste), 'part');
const HandOver = lazy(() => import('./pages/HandOver.tsx').then((module) => module.HandOver), 'part');
const Compare = lazy(() => import('./pages/Compare.tsx').then((module) => module.Compare), 'part');
const Revision = lazy(() => import('./pages/Revision.tsx').then((module) => module.Revision), 'part');
const Print = lazy(() => import('./pages/Print.tsx').then((module) => module.Print), 'part');

export interface PageProps {
  readonly learner: Learner;
  readonly draft: DraftModel;
  readonly live: Live;
}

/** What a page of a draft shows. */
export function PageOf(props: PageProps & { readonly page: string }) {
  const { page, ...rest } = props;
  const [section = '', at] = page.split('/');
  const index = Number(at);
  const thing = textOf(rest.draft.at(`/${section}/${index}`), 'id');
  const query = <AskedHere draft={rest.draft.id} thing={thing} />;
  const tail = <ThingTail key={`${page} tail`} draft={rest.draft} section={section} index={index} />;
  switch (section) {
    case '':
      return <Overview {...rest} />;
    case 'head':
      return <HeadForm {...rest} />;
    case 'sources':
      return <SourcesForm {...rest} />;
    case 'variants':
      return <VariantsForm {...rest} />;
    case 'crew':
      return <CrewForm {...rest} />;
    case 'day':
      return <DayForm {...rest} />;
    case 'conditions':
      return <ConditionsForm {...rest} />;
    case 'areas':
      return <AreasForm {...rest} />;
    case 'paced':
      return <PacedForm {...rest} />;
    case 'procedures':
      return (
        <>
          {query}
          <ProcedurePage key={page} draft={rest.draft} index={index} />
          {tail}
        </>
      );
    case 'limits':
      return at === undefined ? (
        <Limits draft={rest.draft} />
      ) : (
        <>
          {query}
          <LimitForm key={page} draft={rest.draft} path={`/${page}`} />
          {tail}
        </>
      );
    case 'scenarios':
      return (
        <>
          {query}
          <ScenarioForm key={page} draft={rest.draft} path={`/${page}`} />
          <ScenarioBench key={`${page} drawn`} draft={rest.draft} live={rest.live} scenario={index} />
          {tail}
        </>
      );
    case 'hand-over':
      return <HandOver {...rest} />;
    case 'compare':
      return (
        <Compare
          key={page}
          learner={rest.learner}
          draft={rest.draft}
          revisions={revisionsOf(rest.learner.decks.value, rest.draft)}
          {...(at !== undefined && { before: at })}
        />
      );
    case 'revision':
      return <Revision draft={rest.draft} />;
    case 'print':
      return <Print {...rest} />;
    case 'paste':
      return (
        <Paste
          key={page}
          draft={rest.draft}
          procedure={at === undefined ? null : Number(at)}
          device={rest.learner.device}
          done={(index) => go({ at: 'workshop', draft: rest.draft.id, page: `procedures/${index}` })}
        />
      );
    case 'try':
      return <Try {...props} />;
    default:
      return <p>There is no such page. Choose one from the contents.</p>;
  }
}
