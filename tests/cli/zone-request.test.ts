import { describe, expect, test } from "vitest";
import { zoneRequest } from "../../src/cli/zone-request.ts";

describe("the options of zone", () => {
  test("none given ask for the plan's own settings", () => {
    expect(zoneRequest({})).toEqual({ zoning: {}, anew: false });
  });

  test("crew-day, people, climbing and new drafts", () => {
    expect(zoneRequest({ crewHours: "6.5", crewPeople: "ground=2, aerial=4", lift: false, anew: true })).toEqual({
      zoning: { crewHours: 6.5, people: { ground: 2, aerial: 4 }, hasLift: false },
      anew: true,
    });
  });

  test.each([
    [{ crewHours: "0" }, /--crew-hours: expected a number from 1 to 24, got "0"/],
    [{ crewHours: "" }, /--crew-hours: expected a number/],
    [{ crewHours: "25" }, /from 1 to 24/],
    [{ crewHours: "8h" }, /got "8h"/],
    [{ crewPeople: "climbers=2" }, /--crew-people: expected ground, aerial, line-clearance, utility with a number/],
    [{ crewPeople: "ground" }, /--crew-people: expected a number from 1 to 20, got ""/],
    [{ crewPeople: "ground=21" }, /from 1 to 20, got "21"/],
    [{ wzdxContact: "a@example.org" }, /needs its publisher: --wzdx-publisher/],
    [{ wzdxPublisher: "City of Alder", wzdxUpdated: "yesterday" }, /cannot be published so/],
  ])("%j is refused with what is expected", (options, reason) => {
    expect(() => zoneRequest(options)).toThrow(reason);
  });

  test("a feed keeps the time it is told, so that the same run gives the same bytes", () => {
    const { feed } = zoneRequest({
      wzdxPublisher: "City of Alder",
      wzdxUpdated: "2026-11-02T15:00:00Z",
      wzdxOrganization: "Trees",
    });
    expect(feed).toEqual({ publisher: "City of Alder", updated: "2026-11-02T15:00:00Z", organization: "Trees" });
  });
});
