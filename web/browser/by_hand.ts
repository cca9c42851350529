// A house to look at by hand: `npx vite-node browser/by_hand.ts PROGRAM PORT`. It stays until Ctrl-C.
import { PASSWORD, PEOPLE, openHouse, planWeek } from "./house";

const [program, port] = process.argv.slice(-2);
const house = await openHouse(program!, Number(port));
process.on("SIGINT", () => void house.end().then(() => process.exit(0)));
console.log(`${house.address}: ${house.holes.size} holes; ${PEOPLE.map((person) => person.name).join(", ")}, password "${PASSWORD}"`);
const job = await planWeek(house);
console.log(`rounds: ${job.plan.rounds.map((round: any) => `${round.date} ${round.crew}`).join("; ")}`);
for (const person of PEOPLE.filter((person) => person.role === "crew")) {
  const me = (await house.call(person.name, "GET", "/api/me")).value;
  const offer = (await house.call(person.name, "POST", "/api/enrolments", { account: me.account })).value;
  console.log(`phone of ${person.name}: ${offer.link}`);
}
