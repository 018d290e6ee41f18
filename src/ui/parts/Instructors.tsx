/** Where instructors work; each of the three names the others. */
const PLACES = [
  ['class', 'Class table'],
  ['assign', 'Assign practice'],
  ['workshop', 'Workshop'],
] as const;

/** @param props.at the place that is on the screen */
export function InstructorsTop(props: {
  readonly at: (typeof PLACES)[number][0];
  readonly back: readonly [href: string, words: string];
}) {
  const [href, words] = props.back;
  return (
    <header class="top">
      <a class="button plain" href={href}>
        {words}
      </a>
      <nav class="row" aria-label="For instructors">
        {PLACES.filter(([at]) => at !== props.at).map(([at, name]) => (
          <a class="button plain" href={`#/${at}`} key={at}>
            {name}
          </a>
        ))}
      </nav>
    </header>
  );
}

/** All three, as buttons. */
export const InstructorsPlaces = () =>
  PLACES.map(([at, name]) => (
    <a class="button" href={`#/${at}`} key={at}>
      {name}
    </a>
  ));
