/** Something typed that is no sentence: neither corrected nor begun with a capital. */
export function Field(props: {
  readonly label: string;
  readonly value: string;
  readonly onInput: (value: string) => void;
  readonly type?: 'password';
  readonly placeholder?: string;
  readonly autocomplete?: 'username' | 'current-password' | 'off';
}) {
  const { label, value, onInput, type, placeholder, autocomplete = 'off' } = props;
  const same = { value, autocomplete, autocapitalize: 'none', spellcheck: false } as const;
  const put = (event: { readonly currentTarget: HTMLInputElement }) => onInput(event.currentTarget.value);
  if (type === 'password')
    return (
      <label class="field">
        {label}
        <input type="password" {...same} onInput={put} />
      </label>
    );
  return (
    <label class="field">
      {label}
      <input type="text" {...same} placeholder={placeholder} onInput={put} />
    </label>
  );
}
