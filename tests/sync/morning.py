"""How each story begins: two modules with items logged, cleared and closed, and sheets signed; one could go at once."""

from __future__ import annotations

from server import people
from server.db import writing
from tests.sync.handset import Handset
from tests.sync.world import PEOPLE, World


def begin(world: World) -> None:
    office = Handset(world, "maren")
    for name, roles in PEOPLE.items():
        world.people[name] = world.clock.new_id()
        office.write("maren", "person.named", world.people[name], {"name": name, "roles": roles})
    office.sync()
    with world.context(), writing() as conn:
        for name in PEOPLE:
            people.set_passcode(conn, world.people[name], name, "plane of light 7")
    modules = world.modules = [world.clock.new_id() for _ in range(2)]
    for number, module in enumerate(modules):
        office.write("maren", "module.added", module, {"serial": f"17{number}", "home": "17"}, module)
    office.sync()
    phone = Handset(world, "ines", "teo", "sunniva")
    phone.sync()
    for module in modules:
        first = phone.log("ines", module)
        phone.clear("teo", first)
        phone.close("ines", first)
        phone.walk("ines", module)
    phone.log("ines", modules[0])
    phone.clear("teo", phone.log("ines", modules[0]))
    phone.sync()
