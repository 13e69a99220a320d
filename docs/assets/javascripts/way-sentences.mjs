export default {
  "listed.and": "and",

  "compass.0": "to the right",
  "compass.1": "up and to the right",
  "compass.2": "up",
  "compass.3": "up and to the left",
  "compass.4": "to the left",
  "compass.5": "down and to the left",
  "compass.6": "down",
  "compass.7": "down and to the right",

  "way.from": "from {start}",
  "way.ends": "from {start} to {end}",
  "way.round": "round the loop from {start}",
  "way.clockwise": "clockwise",
  "way.anticlockwise": "anticlockwise",
  "way.then": ", then ",
  "way.through": "through {names}",
  "way.wires.one": "along the bare wire {names}",
  "way.wires.many": "along the bare wires {names}",
  "way.forward": "{name} (minus to plus)",
  "way.backward": "{name} (plus to minus)",

  "words.current": "Current {name} is assumed {way}.",
  "words.loop": "Loop {name}, {way}.",
  "current.none": "No current flows in this branch ({parts}).",
  "current.as_assumed": "{size} flows as assumed{colon}{way}.",
  "current.opposite": "{size} flows opposite to the assumed direction{colon}really {way}.",
  "current.against": "{size} flows against the arrow{colon}really {way}.",

  "directions.way": "Assumed direction"
};
