/** Values that have hurt programs before, for any place in a JSON value. */
export const HOSTILE: readonly unknown[] = [
  ...[null, true, false, 0, -0, 1, -1, 0.1, 1e-320, 1e308, -1e308, 2 ** 53, 2 ** 53 + 1, -(2 ** 63), 4294967296],
  ...[[], {}, [[]], [null], [[[[[]]]]], { a: 1 }, { length: 1e9 }, { toString: null }, { type: "Feature" }],
  ...[
    "",
    " ",
    "\u0000",
    "\u001b[31m",
    "\u202e",
    "\ufeff",
    "\ud800",
    "x".repeat(300),
    "9".repeat(400),
    " ".repeat(5000),
  ],
  ...["__proto__", "constructor", "toString", "hasOwnProperty", "prototype", "NaN", "Infinity", "null", "undefined"],
  ...["=1+1", "@SUM(A1)", "<script>alert(1)</script>", "'; DROP TABLE trees; --", "../../x", "%s%n", "\\u0041", '"'],
];

/** Texts that look like lengths, classes, lists of stems, or nearly so. */
export const LENGTHS: readonly unknown[] = [
  ...[
    "12 in",
    "6'",
    "13 ft 6 in",
    "3,5 m",
    "4.2",
    "10-20 ft",
    '6-12"',
    "> 30 cm",
    "under 10 m",
    "30+",
    "<5",
    ">=",
    "-",
  ],
  ...["4.1,1.2,3.4", "12;10;8", "12/10", "1/2", "12 and 10", "1,234.5", "0x28", "4e3", "--5", "5-", "-5", "+", "1.2.3"],
  ...[
    "0",
    "0 ft",
    "1000000",
    "1e999",
    "40 furlongs",
    "10 to 20",
    "20-10",
    "10-10",
    "5'6\"-6'",
    "NaN",
    "-999",
    "N/A",
    "？",
  ],
  ...[0, -1, -9999, 0.0001, 1e6, 1e300, [3, 4], ["3", "x"], [1e308, 1e308], ";;;;", ",".repeat(200), "1;".repeat(100)],
];

/** Texts and numbers that look like dates, or nearly so. */
export const DATES: readonly unknown[] = [
  ...["2024-02-30", "2024-13-01", "03/04/2020", "3/14/21", "2019", "20190401", "2019-04", "Spring 2021", "0000-00-00"],
  ...["10000-01-01", "2024-02-29T23:59:59+14:00", "2023-02-29", "99999999999999", "1/1/1", "--", "T", "2024-1-1"],
  ...[0, 2019, 20_190_401, 1_520_985_600_000, -1, 1e17, 5e12, 0.5, "2024/03/01 garbage", "1-1-2020", "2020.1.1"],
];

/** Names of species and sites, or nearly so. */
export const NAMES: readonly unknown[] = [
  ...[
    "Acer rubrum",
    "ACER RUBRUM 'OCTOBER GLORY'",
    "Acer",
    "acer sp.",
    "Acer x freemanii",
    "Stump",
    "Vacant site",
    "Acer rubrumm",
  ],
  ...[
    "Maple, red",
    "Quercus ",
    "?",
    "unknown",
    "Acer\u0000rubrum",
    "Ａｃｅｒ",
    "x".repeat(1000),
    "Acer ".repeat(100),
    "'",
    "×",
  ],
];
