interface TableProps {
  caption: string;
  heads: readonly string[];
  /** The first cell of a row is its head. */
  rows: readonly (readonly string[])[];
  /** The first column that holds numbers, which stand right; text after them stands left again. */
  numbersFrom: number;
}

/** A table that scrolls by itself where the page is narrow, also by keyboard. */
export function Table({ caption, heads, rows, numbersFrom }: TableProps) {
  const align = (at: number, cell: string) =>
    at >= numbersFrom && /^[\d,]/.test(cell) ? "st-number" : undefined;
  return (
    <section class="st-scroll" aria-label={caption} tabindex={0}>
      <table class="st-table">
        <caption class="st-unseen">{caption}</caption>
        <thead>
          <tr>
            {heads.map((head, at) => (
              <th scope="col" class={align(at, rows[0]?.[at] ?? "")}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([first = "", ...rest]) => (
            <tr>
              <th scope="row">{first}</th>
              {rest.map((cell, at) => (
                <td class={align(at + 1, cell)}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
