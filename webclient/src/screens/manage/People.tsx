import { go, to } from "../../route";
import type { PersonPart } from "../../rules";
import { say, t, tn } from "../../words";
import { crewName, people, Screen } from "../common";
import { Person } from "./Person";

/** Everybody the journal names; with an id one of them, with *new* somebody yet to be named. */
export function People({ id }: { id: string }) {
  if (id === "new") return <Person person={null} />;
  const person = people().find((one) => one.id === id);
  if (person) return <Person person={person} />;
  return <Everybody />;
}

/** *crew lead, Patch crew*; people of a crew without an account have no role. */
function line(person: PersonPart): string {
  const roles = person.roles.map((role) => say(`yard.role.${role}`));
  return [...(roles.length > 0 ? roles : [t("manager.no_role")]), ...(person.crew ? [crewName(person.crew)] : [])].join(", ");
}

function Everybody() {
  const named = [...people()].sort((a, b) => a.name.localeCompare(b.name));
  const groups = [named.filter((one) => one.roles.length > 0), named.filter((one) => one.roles.length === 0)];
  const slab = { label: t("manager.name_person"), onPress: () => go(to.manage("people", "new")) };
  return (
    <Screen title={t("manager.people")} line={tn("manager.people_n", named.length)} over={t("yard.manage")} overHref={to.manage()} slabs={{ main: slab }}>
      {groups.map((group, at) =>
        group.length > 0 ? (
          <section key={at}>
            <h2>{t(at === 0 ? "manager.with_roles" : "manager.without_roles")}</h2>
            <ul class="rows">
              {group.map((person) => (
                <li key={person.id}>
                  <a class="module-row" href={to.manage("people", person.id)}>
                    <b class="wide row-title">{person.name}</b>
                    <span class="wide second">{line(person)}</span>
                  </a>
                </li>
              ))}
            </ul>
          </section>
        ) : null,
      )}
    </Screen>
  );
}
