import { css, html, type TemplateResult } from "lit";
import type { FindingGroup } from "../../worker/intake/intake-messages.ts";
import { capitalized, readableCount, SEVERITY_WORDS } from "../words.ts";
import { fieldWords, pageWords } from "./field-words.ts";

/** Findings told once a kind, each with how often, an example, and what to do. */
export function findingGroups(groups: readonly FindingGroup[], what: string): TemplateResult {
  return html`<ul class="groups">
    ${groups.map((group) => {
      const { example, features } = group;
      const { count, reason } = summed(group);
      const where = ` Seen at ${features.join(", ")}${count > features.length ? " and others" : ""}.`;
      return html`<li class=${group.severity}>
        <span class="count">${readableCount(count)}</span>
        <div>
          <p>
            ${pageWords(reason)}
            <span class="small">${example.field === null ? "" : `${fieldWords(example.field)}. `}${group.count === 1 ? (example.feature ?? "") : features.length > 0 ? where : ""}</span>
          </p>
          <p class="small">${pageWords(example.whatToDo)}</p>
        </div>
        <span class="unseen">${what}, ${SEVERITY_WORDS[group.severity].toLowerCase()}</span>
      </li>`;
    })}
  </ul>`;
}

/** How many features a group is about, and what of them: a finding that sums up trees begins with their number. */
function summed({ example, count }: FindingGroup): { count: number; reason: string } {
  const sum = count === 1 ? /^([\d,]{1,12}) trees?: (.+)$/s.exec(example.reason) : null;
  if (sum === null) return { count, reason: example.reason };
  return { count: Number(sum[1]!.replaceAll(",", "")), reason: capitalized(sum[2]!) };
}

export const findingGroupsStyles = css`
  .groups li {
    position: relative;
    display: grid;
    grid-template-columns: 64px minmax(0, 1fr);
    gap: 14px;
    padding: 8px 0;
    border-bottom: 1px solid var(--rule);
    overflow-wrap: anywhere;
  }
  .groups .count {
    font-size: 18px;
    line-height: 1.25;
    text-align: right;
  }
  .groups .error .count {
    color: var(--warn);
    font-weight: 600;
  }
`;
