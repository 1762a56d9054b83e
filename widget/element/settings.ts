/** The attributes of the element, narrowed. What they hold is not to be trusted; unknown values mean the default. */
export interface Settings {
  branch: string | undefined;
  /** The plant to begin with: an id or a name. */
  host: string | undefined;
  /** The case to begin with: a link, the query of one, or a code. */
  case: string | undefined;
  /** Where the server is, with its last slash. */
  base: string;
}

const LONGEST = 4000;

/** `script`: the address of the first script, which lies in the server's folder /embed/. */
export function readSettings(element: Element, script: string): Settings {
  const read = (name: string) => element.getAttribute(name)?.trim().slice(0, LONGEST) || undefined;
  return {
    branch: read("branch"),
    host: read("host"),
    case: read("case"),
    base: readBase(read("base"), element.ownerDocument.baseURI) ?? script.replace(/embed\/.*$/s, ""),
  };
}

function readBase(given: string | undefined, page: string): string | undefined {
  if (given === undefined) return undefined;
  try {
    const { protocol, href } = new URL(given.endsWith("/") ? given : `${given}/`, page);
    return /^https?:$/.test(protocol) ? href : undefined;
  } catch {
    return undefined;
  }
}
