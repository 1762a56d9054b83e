/**
 * Texts that would run something if any page handed them to a parser: tags, attributes, addresses, Markdown, encodings,
 * writing directions. Each sets `hurt` on the window, or opens a dialog.
 */
export function hostileStrings(): string[] {
  const acts = ["alert(1)", "window.hurt=1", "top.hurt=1", "self['hurt']=1", "eval('hurt=1')"];
  const made = acts.flatMap((act) =>
    shapes.flatMap((shape) => breakouts.map((out) => out + shape.replaceAll("ACT", act))),
  );
  return [
    ...new Set([...made, ...acts.flatMap((act) => encodings.map((one) => one.replaceAll("ACT", act)))]),
  ];
}

/** What gets out of the place where the text stands. */
const breakouts = [
  "",
  '">',
  "'>",
  "</textarea>",
  "</title>",
  "</script>",
  "</pre>",
  "-->",
  "]]>",
  "\u0000",
  "\u202e",
];

const shapes = [
  "<script>ACT</script>",
  "<img src=x onerror=ACT>",
  "<svg onload=ACT>",
  "<svg><script>ACT</script></svg>",
  "<iframe srcdoc='<script>ACT</script>'>",
  "<body onload=ACT>",
  "<details open ontoggle=ACT>",
  "<input autofocus onfocus=ACT>",
  "<video><source onerror=ACT></video>",
  "<a href=javascript:ACT>x</a>",
  "<form action=javascript:ACT><button>x</button></form>",
  "<math><mtext><style><img src=x onerror=ACT></style></mtext></math>",
  "<object data=javascript:ACT>",
  "<style>@import 'javascript:ACT'</style>",
  "<base href=javascript:ACT//>",
  "<meta http-equiv=refresh content='0;url=javascript:ACT'>",
  "<link rel=stylesheet href=javascript:ACT>",
  '" autofocus onfocus=ACT x="',
  "' onmouseover=ACT x='",
];

const encodings = [
  "[x](javascript:ACT)",
  "[x](JaVaScRiPt:ACT)",
  "[x](java\tscript:ACT)",
  "[x](data:text/html,<script>ACT</script>)",
  "[x](vbscript:ACT)",
  '![x](x"onerror="ACT)',
  "<javascript:ACT>",
  "[x][y]\n[y]: javascript:ACT",
  "`<script>ACT</script>`",
  "&lt;script&gt;ACT&lt;/script&gt;",
  "&#60;script&#62;ACT&#60;/script&#62;",
  "%3Cscript%3EACT%3C/script%3E",
  "\\u003cscript\\u003eACT\\u003c/script\\u003e",
  "{{constructor.constructor('ACT')()}}",
  "\u0024{ACT}",
  "<scr\u0000ipt>ACT</scr\u0000ipt>",
  "\u2028<script>ACT</script>\u2029",
  "\u202e>tpircs/<ACT>tpircs<",
  "\ufeff<script>ACT</script>",
  "<!--><script>ACT</script>-->",
];
