// Plans that the server made: the last ones asked for, and which of them the crews' rounds are from.
import { get } from "./server";
import type { Job, PlanRound, WorkPlan } from "./plan_shapes";
import type { Round } from "./shapes";

let shown = $state.raw<{ jobs: Job[]; done: Job[] }>({ jobs: [], done: [] });

/** The last asked for, newest first, without the plans themselves. */
export const jobs = (): Job[] => shown.jobs;

/** Plans looked at lately, newest first. */
export const donePlans = (): Job[] => shown.done;

/** How many plans are read whole: the rounds of today are of one of the last. */
const READ = 4;

const kept = new Map<string, Job>();

/** A plan that is done does not change: it is read once. */
export async function planOf(id: string): Promise<Job> {
  const known = kept.get(id);
  if (known) return known;
  const job = await get<Job>(`/api/plans/${id}`);
  if (job.state === "done") kept.set(id, job);
  return job;
}

export async function refreshPlans(): Promise<void> {
  const jobs = await get<Job[]>("/api/plans");
  const newest = jobs.filter(({ state }) => state === "done").slice(0, READ);
  const done = await Promise.all(newest.map(({ job }) => planOf(job)));
  shown = { jobs, done };
}

const holesOf = (lists: { holes: string[] }[]): string => lists.flatMap(({ holes }) => holes).sort().join();

/** The round of a plan that is the same as this of the record: same number, same holes. */
export function samePlanned(round: Round, plan: Job): PlanRound | undefined {
  const planned = plan.plan?.rounds.find((one) => one.round === round.round);
  if (!planned || !round.repairs || holesOf(planned.repairs) !== holesOf(round.repairs.value)) return undefined;
  return plan.plan?.work_plan.rounds.find(({ date, crew }) => date === planned.date && crew === planned.crew);
}

export function plannedOf(round: Round): PlanRound | undefined {
  for (const plan of shown.done) {
    const found = samePlanned(round, plan);
    if (found) return found;
  }
  return undefined;
}

/** The plan that the rounds of this day are from. */
export function planOfDay(rounds: Round[], date: string): { job: Job; work: WorkPlan } | undefined {
  const ofDay = rounds.filter((round) => round.date?.value === date);
  const job = shown.done.find((plan) => ofDay.some((round) => samePlanned(round, plan) !== undefined));
  return job?.plan ? { job, work: job.plan.work_plan } : undefined;
}
