import { describe, expect, it } from "vitest";
import { findJsonFault } from "../../../src/formats/json/find-json-fault.ts";

describe("findJsonFault", () => {
  it.each([
    ['{"a":1}', null],
    [" [1, -0.5e+3, true, null, {}] ", null],
    ["", "0 a value"],
    ['{"a":1,}', "7 a name in double quotes"],
    ["[1 2]", "3 a comma or ]"],
    ['{"a" 1}', "5 a colon"],
    ['{"a":1 "b":2}', "7 a comma or }"],
    ["[01]", "2 a comma or ]"],
    ["[-]", "2 a digit"],
    ["[1.]", "3 a digit after the decimal point"],
    ["[1e]", "3 a digit in the exponent"],
    ["tru", "3 the word true"],
    ['"a', "2 the closing quote of a text"],
    ['"\\x"', '2 an escape such as \\n, \\" or \\u00e9'],
    ['"\\u12g4"', "5 four hexadecimal digits after \\u"],
    ['"a\nb"', "2 no control character inside a text"],
    ["[1]]", "3 the end of the text"],
    ["[,", "1 a value"],
    ["\ufeff[]", "0 a value"],
  ])("says of %j: %s", (text, expected) => {
    const fault = findJsonFault(new TextEncoder().encode(text));
    expect(fault === null ? null : `${fault.offset} ${fault.expected}`).toBe(expected);
  });
});
