import type { Edition, PackUnit, Product, Quantity, Remedy, UnitSystem } from "../edition.ts";
import type { PlanStep } from "../plan.ts";
import { type Mix, mixBottle } from "./mix.ts";
import { formatNumber } from "./numbers.ts";
import { choosePacks, choosePieces, type Packs, smallestPack } from "./packs.ts";
import { roundMillilitres } from "./spoons.ts";
import type { BottleUnit } from "./units.ts";

/** Ids of products whose quantity follows from more than the step. */
const mixId = "potting-mix";
const potId = "pot-with-holes";

export interface ShoppingItem {
  product: string;
  name: string;
  /** Names of products that do as well. */
  orElse: string[];
  /** Ids of the remedies that ask for it. */
  remedies: string[];
  /** What to get: `500 mL`, `2 × 10 L`, `7 to 8 in`; null where one of it will do. */
  quantity: string | null;
  packs: Packs | null;
  /** Where it stands in this shop. */
  shelf: string | null;
  working: string;
  sources: string[];
}

export interface ShoppingList {
  atHome: ShoppingItem[];
  toBuy: ShoppingItem[];
}

export interface ShoppingRequest {
  steps: readonly PlanStep[];
  edition: Pick<Edition, "remedies" | "products" | "shop">;
  system: UnitSystem;
  locale: string;
  /** The bottle filled in each round, where it is known. */
  bottle?: Quantity<BottleUnit> | undefined;
  /** Product id → the bottle it is mixed in, where that is another. */
  bottles?: Readonly<Record<string, Quantity<BottleUnit>>> | undefined;
  /** Rounds of each remedy as the calendar has them; else the most that the remedy names. */
  rounds?: Readonly<Record<string, number>> | undefined;
  /** Potting mix for one repotting, in mL. */
  mixMl?: number | undefined;
  /** The pot to get, in words: `7 to 8 in`. */
  pot?: string | undefined;
}

interface Use {
  product: Product;
  /** What is mixed with it: the product itself, or the homemade mix made from it. */
  mixed: Product;
  remedy: Remedy;
}

/** The product types of a plan, each named once, split into what is probably at home and what to buy. */
export function listShopping(request: ShoppingRequest): ShoppingList {
  const byProduct = new Map<string, Use[]>();
  for (const use of usesOf(request)) {
    byProduct.set(use.product.id, [...(byProduct.get(use.product.id) ?? []), use]);
  }
  const list: ShoppingList = { atHome: [], toBuy: [] };
  for (const uses of byProduct.values()) {
    const [first] = uses;
    if (first) list[first.product.atHome ? "atHome" : "toBuy"].push(makeItem(request, first.product, uses));
  }
  return list;
}

/** In the order of the plan. A homemade mix stands for what it is made from. */
function usesOf({ steps, edition }: ShoppingRequest): Use[] {
  const products = new Map((edition.products ?? []).map((product) => [product.id, product]));
  const remedies = new Map(edition.remedies.map((remedy) => [remedy.id, remedy]));
  return steps.flatMap(({ remedy: remedyId }) => {
    const remedy = remedies.get(remedyId);
    return (remedy?.uses ?? []).flatMap((id) => {
      const mixed = products.get(id);
      const product = mixed?.madeFrom ? products.get(mixed.madeFrom) : mixed;
      return remedy && mixed && product ? [{ product, mixed, remedy }] : [];
    });
  });
}

function makeItem(request: ShoppingRequest, product: Product, uses: readonly Use[]): ShoppingItem {
  const { edition, system, locale } = request;
  const need = needOf(request, product, uses);
  const packs = need.packs ?? smallestPack(product.sizes, system, locale);
  const plain =
    packs === null || (packs.count === 1 && packs.size.unit === "piece" && packs.size.amount === 1);
  return {
    product: product.id,
    name: product.name,
    orElse: (edition.products ?? []).flatMap(({ insteadOf, name }) =>
      insteadOf === product.id ? [name] : [],
    ),
    remedies: [...new Set(uses.map(({ remedy }) => remedy.id))],
    quantity: need.words ?? (plain ? null : packs.text),
    packs,
    shelf: edition.shop.shelves?.[product.id] ?? product.shelf,
    working: need.working,
    sources: [...new Set([...product.sources, ...need.sources])],
  };
}

interface Need {
  packs: Packs | null;
  /** Said in place of the packs. */
  words: string | null;
  working: string;
  sources: string[];
}

function needOf(request: ShoppingRequest, product: Product, uses: readonly Use[]): Need {
  const { system, locale, mixMl, pot } = request;
  const plain = { packs: null, words: null, sources: [] };
  if (product.id === potId && pot !== undefined) {
    return { ...plain, words: pot, working: `The width worked out for this plant: ${pot}.` };
  }
  if (product.id === mixId && mixMl !== undefined) {
    const packs = choosePacks(mixMl, product.sizes, system, locale);
    const working = `${formatNumber(roundMillilitres(mixMl) / 1000, locale, 1)} L of mix, settling included.`;
    return { ...plain, packs, working };
  }
  return countPieces(request, product, uses) ?? needForBottles(request, product, uses);
}

/** Things that are used up piece by piece, such as cards: one for each round. */
function countPieces(request: ShoppingRequest, product: Product, uses: readonly Use[]): Need | undefined {
  if (product.kind !== "supply" || !product.sizes.some(isPack)) return undefined;
  const pieces = uses.reduce((sum, { remedy }) => sum + roundsOf(request, remedy), 0);
  const packs = choosePieces(pieces, product.sizes, request.locale);
  const working = `One for each round: ${formatNumber(pieces, request.locale)}.`;
  return { packs, words: null, working, sources: [] };
}

function isPack({ amount, unit }: Quantity<PackUnit>): boolean {
  return unit === "piece" && amount > 1;
}

/** What the bottles of all rounds take, where a bottle and a rate are known. */
function needForBottles(request: ShoppingRequest, product: Product, uses: readonly Use[]): Need {
  const { system, locale } = request;
  const mixes = uses.flatMap(({ mixed, remedy }) => {
    const mix = mixFor(request, mixed, product);
    return mix === undefined ? [] : [{ mix, rounds: roundsOf(request, remedy) }];
  });
  const ml = mixes.reduce((sum, { mix, rounds }) => sum + (mix.productMl ?? 0) * rounds, 0);
  if (ml === 0) {
    return {
      packs: null,
      words: null,
      working: "One is enough; the label says how far it goes.",
      sources: [],
    };
  }
  const each = mixes.map(
    ({ mix, rounds }) =>
      `${formatNumber(rounds, locale)} × ${formatNumber(roundMillilitres(mix.productMl ?? 0), locale)} mL`,
  );
  return {
    packs: choosePacks(ml, product.sizes, system, locale),
    words: null,
    working: `${each.join(" + ")} = ${formatNumber(roundMillilitres(ml), locale)} mL.`,
    sources: [...new Set(mixes.flatMap(({ mix }) => mix.sources))],
  };
}

/** Only what is mixed by a published rate can be counted out. */
function mixFor(
  { bottle: usual, bottles, locale }: ShoppingRequest,
  mixed: Product,
  product: Product,
): (Mix & { sources: string[] }) | undefined {
  const bottle = bottles?.[mixed.id] ?? usual;
  if (bottle === undefined || mixed.rates.length === 0) return undefined;
  const mix = mixBottle({ product: mixed, madeFrom: product, bottle, locale });
  return mix.ok ? mix : undefined;
}

function roundsOf({ rounds }: ShoppingRequest, remedy: Remedy): number {
  return rounds?.[remedy.id] ?? remedy.repeat?.times[1] ?? 1;
}
