"""Before the first item: people and their passcodes, plans, and modules as they come in. The opening of each day."""

from __future__ import annotations

from seed_demo import yard
from seed_demo.story import Story


def people(story: Story) -> None:
    """The administrator names everybody and gives passcodes; everybody signs in on a phone of their own."""
    admin = story.signs_in("odalys", yard.ADMINISTRATOR)
    for person in yard.PEOPLE:
        roles = ("crew_lead", "inspector") if person.name == "Ferris Oakey" else person.roles
        named = admin.names(person.name, roles, person.crew)
        admin.sync()
        admin.phone.post(f"/api/people/{named}/passcode", {"passcode": person.passcode})
    for person in yard.PEOPLE:
        story.passes(120)
        story.signs_in(person.name.split()[0].lower(), person)


def helpers(story: Story) -> None:
    """Crew leads name the people of their crews, who have no account."""
    leads = {"board": "bartolo", "paint": "june", "trim": "ferris"}
    for crew, names in yard.HELPERS.items():
        for name in names:
            story.people[name] = story[leads[crew]].names(name, [], crew)
        story.sync(leads[crew])


def plans(story: Story) -> None:
    """The manager draws the plans."""
    manager = story["teodora"]
    for name, rooms in yard.PLANS.items():
        story.passes(400)
        story.plans[name] = manager.draws_plan(manager.phone.new_id(), name, rooms)
    manager.sync()


def arrivals(story: Story, day: int) -> None:
    """The modules that come in on that working day."""
    for module in yard.MODULES:
        if module.comes == day:
            if module.serial not in story.modules:
                adds(story, module)
            story["teodora"].moves(story.modules[module.serial], module.bay)
    story["teodora"].sync()


def adds(story: Story, module: yard.Module) -> None:
    """The manager puts a module into the program."""
    story.passes(240)
    manager = story["teodora"]
    story.modules[module.serial] = manager.adds_module(manager.phone.new_id(), {
        "serial": module.serial, "home": module.home, "order": f"KF-{module.home}", "model": module.model,
        "programme": module.programme, "label": f"TST-{module.serial.replace('-', '')}",
        "pickup": story.pickup(module), "plan": story.plans[module.plan], "mirrored": module.mirrored,
        "finish": module.finish,
    })  # fmt: skip
