import { parted } from '../../../draft/change.ts';
import { useDraft, useOf } from './editing.ts';
import { runwaysMeant } from './runways.ts';

/** "Did you mean 70 and 250?" below the numbers of a drawn value that is shown as a runway. @param props.path of one of its fields */
export function RunwayAid({ path }: { readonly path: string }) {
  const draft = useDraft();
  const { parent } = parted(path);
  const words = useOf((one) => runwaysMeant(one.value.value, parent, one.at(parent))?.words ?? '', `runways ${path}`);
  if (words === '') return null;
  const change = () => {
    const meant = runwaysMeant(draft.value.peek(), parent, draft.at(parent));
    if (meant !== null) draft.change('Runways in degrees', meant.changes);
  };
  return (
    <p class="note warn" role="status">
      A runway is drawn in degrees: 70 for 07. {words}{' '}
      <button type="button" data-aid={path} onClick={change}>
        Change to degrees
      </button>
    </p>
  );
}
