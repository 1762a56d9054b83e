import type { ReliabilityBin } from "../../flows/statistics/agreement.ts";
import { figuresWords } from "./figures-words.ts";
import { sayShare } from "./say-share.ts";

/** The drawing in its own units: a square with room for the numbers on the left and below. */
const SIDE = 300;
const LEFT = 56;
const TOP = 16;
const RIGHT = 32;
const BOTTOM = 52;

/** Both axes run from 0 to 1. */
const x = (share: number) => LEFT + share * SIDE;
const y = (share: number) => TOP + (1 - share) * SIDE;

/** What was promised against what the bench saw, each point with its range. The table beside it says the same. */
export function ReliabilityPlot({ bins }: { bins: readonly ReliabilityBin[] }) {
  const points = bins.map(({ promised, agreed, all }) =>
    figuresWords.plotPoint(sayShare(promised), sayShare(agreed / all), all),
  );
  return (
    <svg
      class="st-plot"
      viewBox={`0 0 ${LEFT + SIDE + RIGHT} ${TOP + SIDE + BOTTOM}`}
      role="img"
      aria-labelledby="plot-title plot-text"
    >
      <title id="plot-title">{figuresWords.plotTitle}</title>
      <desc id="plot-text">{figuresWords.plotText(points.join("; "))}</desc>
      <Grid />
      <path class="st-kept" d={`M${x(0)} ${y(0)}L${x(1)} ${y(1)}`} />
      {bins.map((bin) => (
        <Point bin={bin} />
      ))}
    </svg>
  );
}

function Grid() {
  const marks = [0, 0.25, 0.5, 0.75, 1];
  return (
    <g class="st-grid">
      {marks.map((mark) => (
        <>
          <path d={`M${x(mark)} ${y(0)}V${y(1)}M${x(0)} ${y(mark)}H${x(1)}`} />
          <text x={x(mark)} y={y(0) + 22} text-anchor="middle">
            {sayShare(mark)}
          </text>
          <text x={LEFT - 8} y={y(mark) + 5} text-anchor="end">
            {sayShare(mark)}
          </text>
        </>
      ))}
      <text x={x(0.5)} y={y(0) + 44} text-anchor="middle">
        {figuresWords.promised}
      </text>
      <text x={LEFT + 8} y={TOP + 18}>
        {figuresWords.confirmed}
      </text>
    </g>
  );
}

function Point({ bin: { promised, agreed, all, interval } }: { bin: ReliabilityBin }) {
  const [at, low, high] = [x(promised), y(interval.low), y(interval.high)];
  return (
    <g class="st-point">
      <path d={`M${at} ${low}V${high}M${at - 6} ${low}h12M${at - 6} ${high}h12`} />
      <circle cx={at} cy={y(agreed / all)} r={5} />
    </g>
  );
}
