/** Under a date that lies behind: nearly always a slip of the finger, and now and then meant. Dates are ISO. */
export function Past(props: { readonly date: string | undefined; readonly today: string }) {
  const { date, today } = props;
  if (date === undefined || date === '' || date >= today) return null;
  return <span class="note warn small">This day is past.</span>;
}
