import type { Line, ReportLines as Lines, LinesOfDeck, LinesOfPart } from '../../report/lines.ts';
import { Folded } from './Later.tsx';

/** All that will be in a report's file, before it leaves. */
export function ReportLines(props: { readonly lines: Lines }) {
  const { about, decks } = props.lines;
  return (
    <>
      <h3>About you</h3>
      <Facts lines={about} />
      {decks.map((deck) => (
        <OfDeck key={deck.id} deck={deck} />
      ))}
    </>
  );
}

function Facts(props: { readonly lines: readonly Line[] }) {
  return (
    <dl class="facts">
      {props.lines.map(({ what, said }) => [
        <dt key={`${what} `}>{what}</dt>,
        <dd key={what}>{said ?? <LeftOut />}</dd>,
      ])}
    </dl>
  );
}

function LeftOut() {
  return <em class="soft">left out</em>;
}

function OfDeck(props: { readonly deck: LinesOfDeck }) {
  const { title, fictional, lines, parts, queries, slips } = props.deck;
  return (
    <section class="stack rule">
      <h3>{title}</h3>
      {fictional && (
        <p>
          <span class="mark">Invented aeroplane, invented numbers</span>
        </p>
      )}
      <Facts lines={lines} />
      {parts.map((part) => (
        <OfPart key={part.title} part={part} />
      ))}
      {queries !== null && <Told title="Questions that you queried" none="None." lines={queries} />}
      {slips !== null && <Told title="Wrong answers, in words" none="None that say something." lines={slips} />}
    </section>
  );
}

function OfPart(props: { readonly part: LinesOfPart }) {
  const { title, said, items } = props.part;
  return (
    <div>
      <h4>{title}</h4>
      <p class="small">{said}</p>
      <Folded summary={`Each item of ${title}`}>
        {() => (
          <ul class="lines small">
            {items.map((item) => (
              <li key={item.key}>
                {item.label}
                {item.said.map((line) => (
                  <p key={line}>{line}</p>
                ))}
                <p class="soft">
                  In the file as <code>{item.key}</code>
                </p>
              </li>
            ))}
          </ul>
        )}
      </Folded>
    </div>
  );
}

function Told(props: { readonly title: string; readonly none: string; readonly lines: readonly string[] }) {
  const { title, none, lines } = props;
  return (
    <div>
      <h4>{title}</h4>
      {lines.length === 0 ? (
        <p class="small">{none}</p>
      ) : (
        <ul class="lines small">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
