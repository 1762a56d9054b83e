/**
 * The JSX runtime of the element's bundle: makes the nodes that hono/jsx/dom renders. Unlike hono's own it leaves
 * `form`, `input` and `button` plain elements, for the check needs no form actions, and they weigh more than a kilobyte.
 */
type Props = { ref?: unknown; children?: unknown };

export function jsx(tag: unknown, props: Props, key?: string) {
  return { tag, type: tag, props, key, ref: props.ref };
}

export { jsx as jsxs };

export function Fragment(props: Props) {
  return jsx("", props);
}
