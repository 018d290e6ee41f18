import { isList, isMembers } from '../../../lib/json.ts';
import './fields.css';
import type { Json } from '../../../lib/canonical-json.ts';
import { Band } from './Band.tsx';
import { CalledBox } from './CalledBox.tsx';
import { useOf } from './editing.ts';
import { Given } from './Given.tsx';
import { IdBox } from './IdBox.tsx';
import { ListField, Part, ThingsField } from './Many.tsx';
import { Odd } from './Odd.tsx';
import { Choice, DateBox, Formula, NumberBox, type OnWords, Words, Yes } from './Plain.tsx';
import { RecordField } from './RecordField.tsx';
import { Reference, Source } from './Refer.tsx';
import { Rows } from './Rows.tsx';
import { Strangers } from './Strangers.tsx';
import type { Kind, Spec } from './spec.ts';
import { WhenField } from './When.tsx';

const LISTS: ReadonlySet<Kind['is']> = new Set(['list', 'things', 'rows', 'strangers']);
const OBJECTS: ReadonlySet<Kind['is']> = new Set(['part', 'record', 'when', 'given']);

/** Is a list where no list belongs, or none where one does? */
const isOdd = (value: Json | undefined, kind: Kind): boolean => {
  if (value === undefined || kind.is === 'elsewhere') return false;
  if (LISTS.has(kind.is)) return !isList(value);
  if (OBJECTS.has(kind.is)) return !isMembers(value);
  return isList(value) || value === null || (isMembers(value) && kind.is !== 'band');
};

interface Props {
  readonly spec: Spec;
  readonly path: string;
  readonly onWords?: OnWords;
}

/** The input for a value of the draft, by its kind. */
export function Field(props: Props) {
  const { spec, path } = props;
  const odd = useOf((draft) => isOdd(draft.at(path), spec.kind), path);
  if (odd) return <Odd path={path} said={`${spec.label}: not written as it must be`} />;
  const Aid = spec.aid;
  return (
    <>
      <Box {...props} />
      {Aid !== undefined && <Aid path={path} />}
    </>
  );
}

function Box(props: { readonly spec: Spec; readonly path: string; readonly onWords?: OnWords }) {
  const { spec, path, onWords } = props;
  const { kind } = spec;
  const at = { spec, path };
  switch (kind.is) {
    case 'words':
      return (
        <Words
          {...at}
          long={kind.long === true}
          filled={kind.filled === true}
          {...(onWords !== undefined && { onWords })}
        />
      );
    case 'formula':
      return <Formula {...at} />;
    case 'number':
      return <NumberBox {...at} />;
    case 'date':
      return <DateBox {...at} />;
    case 'yes':
      return <Yes {...at} inherits={kind.inherits} />;
    case 'choice':
      return <Choice {...at} of={kind.of} />;
    case 'id':
      return <IdBox {...at} id={kind} />;
    case 'refer':
      return <Reference {...at} to={kind.to} free={kind.free === true} />;
    case 'called':
      return <CalledBox {...at} />;
    case 'source':
      return <Source {...at} />;
    case 'band':
      return <Band {...at} />;
    case 'when':
      return <WhenField {...at} />;
    case 'given':
      return <Given {...at} />;
    case 'rows':
      return <Rows {...at} />;
    case 'strangers':
      return <Strangers {...at} />;
    case 'list':
      return <ListField {...at} kind={kind} />;
    case 'things':
      return <ThingsField {...at} kind={kind} />;
    case 'part':
      return <Part {...at} kind={kind} />;
    case 'record':
      return <RecordField {...at} kind={kind} />;
    case 'elsewhere':
      return null;
  }
}
