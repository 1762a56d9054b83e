/** The drawn tree by keyboard: zoom in place, and arrow keys along the arrows. Without it, links do the same. */

const drawing = document.querySelector<SVGSVGElement>("svg[data-tree]");
const box = drawing?.parentElement;
if (drawing && box) followKeys(drawing, box);

function followKeys(svg: SVGSVGElement, within: HTMLElement): void {
  const cards = [...svg.querySelectorAll<SVGAElement>("a[data-id]")];
  const arrows = [...svg.querySelectorAll<SVGGElement>("g[data-from]")];
  const zoom = openZoom(svg, within);
  // What leads here and where this leads is thickened; the names say it too.
  const mark = (id: string | undefined) => {
    for (const { classList, dataset } of arrows)
      classList.toggle("ed-near", id !== undefined && (dataset.from === id || dataset.to === id));
    const here = cards.find(({ dataset }) => dataset.id === id);
    for (const card of cards)
      card.classList.toggle("ed-near", here !== undefined && (leads(here, card) || leads(card, here)));
  };
  for (const card of cards) {
    card.addEventListener("focus", () => mark(card.dataset.id));
    card.addEventListener("blur", () => mark(undefined));
    card.addEventListener("pointerenter", () => mark(card.dataset.id));
    card.addEventListener("pointerleave", () => mark(undefined));
  }
  within.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const steps: Record<string, () => void> = {
      "+": zoom.larger,
      "=": zoom.larger,
      "-": zoom.smaller,
      "0": zoom.whole,
    };
    const step = steps[event.key];
    if (step) {
      event.preventDefault();
      return step();
    }
    const here = cards.find((card) => card === document.activeElement);
    const next = here && findNext(cards, here, event.key);
    if (!next) return;
    event.preventDefault();
    next.focus();
    next.scrollIntoView({ block: "nearest", inline: "nearest" });
  });
  document.getElementById("tree-keys")?.removeAttribute("hidden");
}

/** Whether an answer to one question brings up the other. */
function leads(from: SVGAElement, to: SVGAElement): boolean {
  return (from.dataset.leads ?? "").split(" ").includes(to.dataset.id ?? "");
}

/** Right and left go along the arrows, up and down through the turns. */
function findNext(cards: readonly SVGAElement[], here: SVGAElement, key: string): SVGAElement | undefined {
  const at = cards.indexOf(here);
  if (key === "ArrowDown") return cards[at + 1];
  if (key === "ArrowUp") return cards[at - 1];
  if (key === "ArrowRight") return cards.find((card) => leads(here, card));
  if (key === "ArrowLeft") return cards.findLast((card) => leads(card, here));
  return undefined;
}

/** Sizes in percent; null fits the drawing to the page. */
function openZoom(svg: SVGSVGElement, within: HTMLElement) {
  const nav = document.querySelector<HTMLElement>("[data-zooms]");
  const sizes = (nav?.dataset.zooms ?? "").split(" ").map(Number);
  const [wide, high] = [Number(svg.dataset.wide), Number(svg.dataset.high)];
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  let size: number | null = svg.classList.contains("ed-tree-fit")
    ? null
    : Math.round((svg.clientWidth / rem / wide) * 100);

  function set(to: number | null): void {
    const seen = size ?? Math.round((svg.clientWidth / rem / wide) * 100);
    const x = within.scrollLeft + within.clientWidth / 2;
    const y = within.scrollTop + within.clientHeight / 2;
    size = to;
    svg.classList.toggle("ed-tree-fit", to === null);
    if (to === null) {
      svg.removeAttribute("width");
      svg.removeAttribute("height");
    } else {
      svg.setAttribute("width", `${(wide * to) / 100}rem`);
      svg.setAttribute("height", `${(high * to) / 100}rem`);
      // What was in the middle stays there.
      within.scrollTo((x * to) / seen - within.clientWidth / 2, (y * to) / seen - within.clientHeight / 2);
    }
    const status = document.getElementById("tree-size");
    if (status) status.textContent = to === null ? "fitted to the page" : `${to} %`;
    const whole = nav?.querySelector('[data-zoom="whole"]');
    if (to === null) whole?.setAttribute("aria-current", "true");
    else whole?.removeAttribute("aria-current");
  }

  const now = () => size ?? Math.round((svg.clientWidth / rem / wide) * 100);
  const ways = {
    larger: () => set(sizes.find((one) => one > now()) ?? sizes.at(-1) ?? 100),
    smaller: () => set(sizes.findLast((one) => one < now()) ?? sizes[0] ?? 100),
    whole: () => set(null),
  };
  for (const [name, step] of Object.entries(ways)) {
    const link = nav?.querySelector<HTMLAnchorElement>(`[data-zoom="${name}"]`);
    link?.setAttribute("role", "button");
    link?.addEventListener("click", (event) => {
      event.preventDefault();
      step();
    });
    link?.addEventListener("keydown", (event) => {
      if (event.key !== " ") return;
      event.preventDefault();
      step();
    });
  }
  return ways;
}
