"""Whether two programs make the same plans: python3 tests/same_plans.py OLD NEW [DRAWN]

Plans the demos and some drawn profiles (60 unless said) with both, and compares all of the plans but `inputs`, `solve`
and the words of what falls short. Prints what differs, and ends with 1 where anything does. For changes of structure,
which must leave every plan as it is.
"""

import json
import random
import subprocess
import sys
from pathlib import Path

WORDS = {"wanted", "got", "because"}


def lines(program, profiles):
    """The answer to each profile, in order."""
    text = "".join(json.dumps(profile) + "\n" for profile in profiles)
    run = subprocess.run([program, "plan", "--lines"], input=text, capture_output=True, text=True, check=False)
    return [json.loads(line) for line in run.stdout.splitlines()]


def demo(program, profile):
    run = subprocess.run(
        [program, "plan", profile, "--format", "json"], capture_output=True, text=True, check=False
    )
    return json.loads(run.stdout) if run.stdout else {"exit": run.returncode, "says": run.stderr}


def bare(value):
    """A plan without what may differ."""
    if isinstance(value, dict):
        left = {"inputs", "solve"} | (WORDS if "rule" in value else set())
        return {key: bare(part) for key, part in value.items() if key not in left}
    return [bare(part) for part in value] if isinstance(value, list) else value


def words(program, key):
    """The words that the schema allows under a key's own type."""
    schema = json.loads(subprocess.run([program, "schema", "profile"], capture_output=True, text=True).stdout)
    definition = schema["$defs"][key]
    return [one["const"] for one in definition["oneOf"]] if "oneOf" in definition else definition["enum"]


def drawn(program, count):
    draw = random.Random(20270104)
    kit, stress = words(program, "Kit"), words(program, "Stress")
    muscles, goals = words(program, "Muscle"), words(program, "Goal")
    listed = subprocess.run([program, "catalog", "list", "--format", "json"], capture_output=True, text=True)
    work = [entry["id"] for entry in json.loads(listed.stdout) if entry.get("role", "work") == "work"]
    for number in range(count):
        names = draw.sample(work, 4)
        days = draw.sample(["mon", "tue", "wed", "thu", "fri", "sat", "sun"], draw.randint(1, 5))
        yield {
            "client": f"drawn-{number:02}",
            "training_status": draw.choice(["novice", "intermediate", "advanced"]),
            "goal": draw.choice(goals),
            "start": "2027-01-04",
            "sessions": [{"day": day, "minutes": draw.randrange(20, 91, 5)} for day in days],
            "equipment": draw.choice([[], draw.sample(kit, 3), draw.sample(kit, 12), kit]),
            "limits": draw.sample(stress, draw.choice([0, 0, 1, 2])),
            "supersets": draw.choice(["prefer", "allow", "never"]),
            "emphasis": {muscle: draw.choice(["more", "less"]) for muscle in draw.sample(muscles, draw.randint(0, 2))},
            "exercises": {"prefer": names[:1], "avoid": names[1:2], "never": names[2:3], "must": names[3 : draw.choice([3, 3, 4])]},
            "recovery_hours": draw.choice([24, 48, 48, 72]),
            "weeks": draw.choice([1, 4, 8]),
        }


def main():
    old, new = sys.argv[1:3]
    count = int(sys.argv[3]) if len(sys.argv) > 3 else 60
    pairs = [(str(path), demo(old, path), demo(new, path)) for path in sorted(Path("profiles").glob("*.yaml"))]
    profiles = list(drawn(new, count))
    answers = zip(profiles, lines(old, profiles), lines(new, profiles), strict=True)
    pairs += [(json.dumps(profile), one, other) for profile, one, other in answers]
    differ = [name for name, one, other in pairs if bare(one) != bare(other)]
    for name in differ:
        print(f"differs: {name}")
    plans = sum("sessions" in one for _, one, _ in pairs)
    print(f"{len(pairs)} profiles, {plans} of them with a plan: {len(differ)} differ")
    return 1 if differ else 0


if __name__ == "__main__":
    sys.exit(main())
