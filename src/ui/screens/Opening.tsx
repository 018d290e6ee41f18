/** Before anything is read from the device. */
export function Opening(props: { readonly blocked?: boolean }) {
  return (
    <div class="app">
      <main class="sheet">
        <h1>Recency</h1>
        {props.blocked && (
          <p class="note warn" role="alert">
            An older version of the app is open in another tab. Close it.
          </p>
        )}
      </main>
    </div>
  );
}

export function Broken(props: { readonly why: string }) {
  return (
    <div class="app">
      <main class="sheet">
        <h1>Recency cannot open what is kept here</h1>
        <p class="note bad" role="alert">
          {props.why}
        </p>
        <p>Nothing was deleted. Private windows and full devices often store nothing.</p>
        <button type="button" class="main" onClick={() => location.reload()}>
          Try again
        </button>
      </main>
    </div>
  );
}
