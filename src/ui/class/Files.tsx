import { useEffect, useRef } from 'preact/hooks';
import type { FileResult } from '../../class/types.ts';
import { Folded } from '../parts/Later.tsx';
import { plural } from '../words.ts';
import type { ClassModel } from './model.ts';

const OUTCOMES: Readonly<Record<FileResult['outcome'], string>> = {
  taken: '✓ Taken in',
  twice: '~ Here already',
  refused: '✗ Refused',
};

/** Of more files only those that were refused are listed at once: the table must not slip out of sight. */
const MOST_LINES = 12;

/** Reports come in: several files at once, a folder, or dropped anywhere on the page. */
export function Files(props: { readonly model: ClassModel; readonly first: boolean }) {
  const { model, first } = props;
  const busy = model.waiting.value > 0;
  useEffect(() => {
    const isFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true;
    const over = (event: DragEvent) => {
      if (isFiles(event)) event.preventDefault();
    };
    const drop = (event: DragEvent) => {
      if (!isFiles(event)) return;
      // What is dropped elsewhere in the app is taken for a deck.
      event.preventDefault();
      void model.takeFiles([...(event.dataTransfer?.files ?? [])]);
    };
    document.addEventListener('dragover', over);
    document.addEventListener('drop', drop);
    return () => {
      document.removeEventListener('dragover', over);
      document.removeEventListener('drop', drop);
    };
  }, [model]);
  const take = (input: HTMLInputElement) => {
    const files = [...(input.files ?? [])];
    input.value = '';
    if (files.length > 0) void model.takeFiles(files);
  };
  return (
    <section class="stack screen-only">
      {first && (
        <p>
          Trainees save a progress report in their own app and hand it to you as a file. Open the files here: the table
          tells who will forget what. The reports stay on this device.
        </p>
      )}
      <div class="row">
        <label class="button main">
          Open reports
          <input
            type="file"
            multiple
            class="hidden-visually"
            disabled={busy}
            onChange={(event) => take(event.currentTarget)}
          />
        </label>
        <label class="button">
          Open a folder
          <input
            type="file"
            multiple
            class="hidden-visually"
            disabled={busy}
            {...{ webkitdirectory: true }}
            onChange={(event) => take(event.currentTarget)}
          />
        </label>
      </div>
      <p class="small soft">Or drop files anywhere on this page.</p>
      <div role="status" class="stack">
        {busy && <p>{plural(model.waiting.value, 'file')} to go</p>}
        <Results results={model.results.value} />
      </div>
    </section>
  );
}

function Results(props: { readonly results: readonly FileResult[] }) {
  const { results } = props;
  // Files may be dropped far below.
  const line = useRef<HTMLParagraphElement>(null);
  useEffect(() => line.current?.scrollIntoView({ block: 'nearest' }), [results]);
  const of = (outcome: FileResult['outcome']) => results.filter((one) => one.outcome === outcome).length;
  if (results.length === 0) return null;
  return (
    <>
      <p ref={line}>
        <strong>
          {plural(results.length, 'file')}: {of('taken')} taken in, {of('twice')} here already, {of('refused')} refused.
        </strong>
      </p>
      {results.length > MOST_LINES ? (
        <>
          <Lines results={results.filter(({ outcome }) => outcome === 'refused')} />
          <Folded summary="All files">{() => <Lines results={results} />}</Folded>
        </>
      ) : (
        <Lines results={results} />
      )}
    </>
  );
}

const Lines = (props: { readonly results: readonly FileResult[] }) => (
  <ul class="lines">
    {props.results.map(({ name, outcome, words }, i) => (
      <li key={i}>
        <strong>{OUTCOMES[outcome]}</strong> <span dir="auto">{name}</span>
        <br />
        <span class="small" dir="auto">
          {words}
        </span>
      </li>
    ))}
  </ul>
);
