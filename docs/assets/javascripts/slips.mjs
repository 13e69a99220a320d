export default {
  "slips": [
    {
      "name": "resistor-sign",
      "kind": "sign",
      "title": "The sign of one resistor's term",
      "rule": "loop rule",
      "section": "loops",
      "sentences": {
        "along": "You go through {part} along {current}, so the potential drops there: {right}, not {written}.",
        "against": "You go through {part} against {current}, so the potential rises there: {right}, not {written}.",
        "along-moved": "You go through {part} along {current}, so the potential drops there. On the {side} side of your equation a drop counts {sense}: {thereRight}, not {there}.",
        "against-moved": "You go through {part} against {current}, so the potential rises there. On the {side} side of your equation a rise counts {sense}: {thereRight}, not {there}."
      },
      "when": "the term of {part} with {current} has the wrong sign in one loop equation, in the equation or when moving it across",
      "source": "OpenStax, University Physics Volume 2, sec. 10.3 and OpenStax, College Physics 2e, sec. 21.3 (the rule that prevents it); reported by a teacher: A. Rundquist, blog, 7 October 2014"
    },
    {
      "name": "junction-sign",
      "kind": "sign",
      "title": "Entering counted as leaving",
      "rule": "junction rule",
      "section": "junctions",
      "sentences": {
        "along": "{current} enters junction {where}. With plus for what enters, its term is {right}, not {written}.",
        "against": "{current} leaves junction {where}. With plus for what enters, its term is {right}, not {written}.",
        "along-moved": "{current} enters junction {where}. On the {side} side of your equation what enters counts {sense}: {thereRight}, not {there}.",
        "against-moved": "{current} leaves junction {where}. On the {side} side of your equation what leaves counts {sense}: {thereRight}, not {there}."
      },
      "when": "{current} has the wrong sign at junction {where}",
      "source": "OpenStax, University Physics Volume 2, sec. 10.3 (the rule that prevents it)"
    },
    {
      "name": "put-in-sign",
      "kind": "sign",
      "title": "A current put in with a wrong sign",
      "rule": "junction rule",
      "section": "junctions",
      "sentence": "It is the loop {loop} with {written} put in for {current}. Junction {where} gives {current} = {right}.",
      "source": null
    },
    {
      "name": "emf-sign",
      "kind": "emf sign",
      "title": "The sign of an emf",
      "rule": "loop rule",
      "section": "loops",
      "sentences": {
        "along": "You go through {part} from minus to plus, so the potential rises there, whatever the current does: {right}, not {written}.",
        "against": "You go through {part} from plus to minus, so the potential drops there, whatever the current does: {right}, not {written}.",
        "along-moved": "You go through {part} from minus to plus, so the potential rises there, whatever the current does. On the {side} side of your equation a rise counts {sense}: {thereRight}, not {there}.",
        "against-moved": "You go through {part} from plus to minus, so the potential drops there, whatever the current does. On the {side} side of your equation a drop counts {sense}: {thereRight}, not {there}.",
        "alone": "Beside your resistor terms the emf of {part} has the wrong sign: turn its sign, or that of every resistor term. From minus to plus is a rise; a resistor along its arrow is a drop."
      },
      "when": "the emf of {part} has the wrong sign in one loop equation, as if the current decided it and not the poles",
      "source": "OpenStax, University Physics Volume 2, sec. 10.3 (the rule that prevents it)"
    },
    {
      "name": "branch-sign",
      "kind": "sign",
      "title": "One current taken the other way in a whole loop",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{current} keeps its arrow all along {parts}. In your equation all their terms have the wrong sign: {right}, not {written}.",
      "when": "{current} is turned round in one loop equation only",
      "source": "OpenStax, College Physics 2e, sec. 21.3 (keep the directions once they are chosen)"
    },
    {
      "name": "all-minus",
      "kind": "sign",
      "title": "Minus for every resistor",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "You write every resistor term with one sign. Round this loop some are walked along the arrow and some against it: look at {parts}.",
      "when": "every resistor term of one loop has the same sign, whichever way its arrow points",
      "source": "OpenStax, University Physics Volume 2, sec. 10.3 and OpenStax, College Physics 2e, sec. 21.3 (the rule that prevents it); reported by a teacher: A. Rundquist, blog, 7 October 2014"
    },
    {
      "name": "every-emf-sign",
      "kind": "emf sign",
      "title": "The signs of all emfs of a loop",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "Beside your resistor terms the emfs of {parts} have the wrong signs: turn them all, or the sign of every resistor term.",
      "when": "all emfs of one loop have the wrong sign beside its resistor terms",
      "source": null
    },
    {
      "name": "battery-turned",
      "kind": "sign",
      "title": "A battery walked the other way",
      "rule": "loop rule",
      "section": "loops",
      "sentences": {
        "along": "Both terms of {part} have the wrong sign: you go through it from minus to plus.",
        "against": "Both terms of {part} have the wrong sign: you go through it from plus to minus."
      },
      "source": null
    },
    {
      "name": "branch-turned",
      "kind": "sign",
      "title": "A whole branch walked the other way",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "All terms of {parts} have the wrong sign: walking on round the loop, you go through them the other way.",
      "source": null
    },
    {
      "name": "missing-resistor",
      "kind": "missing",
      "title": "A resistor left out",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{part} lies on this loop and is not in your equation: {right} is missing.",
      "moved": "{part} lies on this loop and is not in your equation: {thereRight} is missing on its {side} side.",
      "when": "{part} is left out of one loop equation",
      "source": null
    },
    {
      "name": "missing-internal",
      "kind": "missing",
      "title": "An internal resistance left out",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "The internal resistance of {part} lies on this loop too: {right} is missing.",
      "moved": "The internal resistance of {part} lies on this loop too: {thereRight} is missing on the {side} side of your equation.",
      "when": "the internal resistance of {part} is left out of one loop equation",
      "source": null
    },
    {
      "name": "missing-emf",
      "kind": "missing",
      "title": "An emf left out",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "You go through {part} on this loop, so its emf counts: {right} is missing.",
      "moved": "You go through {part} on this loop, so its emf counts: {thereRight} is missing on the {side} side of your equation.",
      "when": "the emf of {part} is left out of one loop equation",
      "source": null
    },
    {
      "name": "missing-battery",
      "kind": "missing",
      "title": "A battery left out",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "You go through {part} on this loop. Its emf and its internal resistance are both missing.",
      "when": "{part} is left out of one loop equation",
      "source": null
    },
    {
      "name": "missing-factor",
      "kind": "missing",
      "title": "A resistance without its current",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{part} stands alone, without its current. The voltage across it is resistance times current: write {right} where you wrote {written}.",
      "source": null
    },
    {
      "name": "missing-branch",
      "kind": "missing",
      "title": "A whole branch left out",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "The loop goes through {parts} as well, and nothing of it is in your equation.",
      "when": "{parts} are left out of one loop equation",
      "source": null
    },
    {
      "name": "missing-current",
      "kind": "missing",
      "title": "A current left out at a junction",
      "rule": "junction rule",
      "section": "junctions",
      "sentence": "{current} meets junction {where} too. With plus for what enters, {right} is missing.",
      "moved": "{current} meets junction {where} too: {thereRight} is missing on the {side} side of your equation.",
      "when": "{current} is left out at junction {where}",
      "source": "Conservation of current not applied with several batteries: Stetzer, van Kampen, Shaffer, McDermott, Am. J. Phys. 81, 134 (2013)"
    },
    {
      "name": "prefix",
      "kind": "value",
      "title": "A wrong prefix",
      "rule": "loop rule",
      "section": "equations",
      "sentence": "The value of {part} has another prefix than the rest of your equation: {right}, not {written}. Keep to V, kΩ and mA, or to V, Ω and A.",
      "when": "the value of {part} is a thousand times too large or too small in one loop equation",
      "source": "Published problems in kΩ and mA, where it happens: OpenStax, University Physics Volume 2, ch. 10"
    },
    {
      "name": "prefix-of-all",
      "kind": "value",
      "title": "Units that do not belong together",
      "rule": "loop rule",
      "section": "equations",
      "sentence": "The terms are those of the loop {where}, but all its resistances are a thousand times too large or too small beside its emf. Look at the prefixes in the figure, and keep to V with Ω and A, or V with kΩ and mA.",
      "source": "Published problems in kΩ and mA, where it happens: OpenStax, University Physics Volume 2, ch. 10"
    },
    {
      "name": "other-value",
      "kind": "value",
      "title": "The value of another part",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "The term of {part} has the value of another part: {right}, not {written}.",
      "when": "{part} is given the value of another part in one loop equation",
      "source": null
    },
    {
      "name": "wrong-value",
      "kind": "value",
      "title": "A wrong value",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "The term of {parts} should be {right}, not {written}.",
      "source": null
    },
    {
      "name": "swapped-values",
      "kind": "value",
      "title": "Two values changed over",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "The values of {parts} have changed places.",
      "when": "the values of {parts} change places in one loop equation",
      "source": null
    },
    {
      "name": "extra-resistor",
      "kind": "extra",
      "title": "A resistor that is not on the loop",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{part} is not on this loop ({where}): {written} does not belong in its equation.",
      "when": "{part} is counted in a loop that does not go through it",
      "source": null
    },
    {
      "name": "extra-emf",
      "kind": "extra",
      "title": "An emf that is not on the loop",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{part} is not on this loop ({where}), so its emf does not count here.",
      "when": "the emf of {part} is counted in a loop that does not go through it",
      "source": null
    },
    {
      "name": "extra-battery",
      "kind": "extra",
      "title": "A battery that is not on the loop",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{part} is not on this loop ({where}): neither its emf nor its internal resistance counts here.",
      "when": "{part} is counted in a loop that does not go through it",
      "source": null
    },
    {
      "name": "extra-current",
      "kind": "extra",
      "title": "A current that does not meet the junction",
      "rule": "junction rule",
      "section": "junctions",
      "sentence": "{current} does not meet junction {where}: {written} does not belong there.",
      "when": "{current} is counted at junction {where}, which it does not meet",
      "source": null
    },
    {
      "name": "extra-wire",
      "kind": "extra",
      "title": "A term for a part without resistance",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{part} has no resistance, so the potential neither rises nor drops there: {written} does not belong in the equation of {where}.",
      "source": null
    },
    {
      "name": "extra-number",
      "kind": "extra",
      "title": "A number that does not belong there",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{written} does not belong in the equation of {where}.",
      "source": null
    },
    {
      "name": "twice",
      "kind": "value",
      "title": "A part counted twice",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "{part} counts once round this loop: {right}. You count it twice.",
      "source": null
    },
    {
      "name": "current-twice",
      "kind": "value",
      "title": "A current counted twice",
      "rule": "junction rule",
      "section": "junctions",
      "sentence": "{current} counts once at junction {where}. You count it twice.",
      "source": null
    },
    {
      "name": "wrong-current",
      "kind": "value",
      "title": "A resistor with another branch's current",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "What flows through {part} is {ownCurrent}, not {current}: its term is {right}.",
      "moved": "What flows through {part} is {ownCurrent}, not {current}: its term is {thereRight} on the {side} side of your equation.",
      "source": "OpenStax, College Physics 2e, sec. 21.3 (label every current in the figure first)"
    },
    {
      "name": "current-sign",
      "kind": "sign",
      "title": "The sign of a current",
      "rule": "loop rule",
      "section": "directions",
      "sentence": "{current} has the right size. Its sign says it flows the other way: is your arrow the one of the figure?",
      "several": "{currents} have the right sizes. Their signs say they flow the other way: are your arrows those of the figure?",
      "source": "OpenStax, College Physics 2e, sec. 21.3 and OpenStax, University Physics Volume 2, sec. 10.3 (what a minus sign means)"
    },
    {
      "name": "current-prefix",
      "kind": "value",
      "title": "A wrong prefix in a current",
      "rule": "loop rule",
      "section": "equations",
      "sentences": {
        "large": "{currents}: that would be right in {unit}. In {typed} it is a thousand times too large.",
        "small": "{currents}: that would be right in {unit}. In {typed} it is a thousand times too small.",
        "turned": "{currents}: the size would be right in {unit}, not in {typed}. The sign says it flows the other way.",
        "mixed": "{currents}: right but for their prefixes. Each is a thousand times too large or too small."
      },
      "source": "Published problems in kΩ and mA, where it happens: OpenStax, University Physics Volume 2, ch. 10"
    },
    {
      "name": "battery-reversed",
      "kind": "emf sign",
      "title": "A battery the wrong way round",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "These are exactly the currents with {part} the other way round.",
      "when": "{part} counts from plus to minus in all loops",
      "source": "OpenStax, University Physics Volume 2, sec. 10.3 (the order of the terminals decides)"
    },
    {
      "name": "arrow-turned",
      "kind": "sign",
      "title": "An arrow turned between two equations",
      "rule": "loop rule",
      "section": "directions",
      "sentence": "These are exactly the currents when {current} runs one way at the junctions and the other way in the loops.",
      "when": "{current} runs one way in the junction equations and the other way in the loop equations",
      "source": "OpenStax, College Physics 2e, sec. 21.3 (keep the directions once they are chosen)"
    },
    {
      "name": "swapped-everywhere",
      "kind": "value",
      "title": "Two values changed over in all equations",
      "rule": "loop rule",
      "section": "equations",
      "sentence": "These are exactly the currents when {parts} change places.",
      "when": "the values of {parts} change places in all equations",
      "source": null
    },
    {
      "name": "other-value-everywhere",
      "kind": "value",
      "title": "A wrong value in all equations",
      "rule": "loop rule",
      "section": "equations",
      "sentence": "These are exactly the currents when {part} has the value of another part.",
      "when": "{part} has the value of another part in all equations",
      "source": null
    },
    {
      "name": "prefix-everywhere",
      "kind": "value",
      "title": "A wrong prefix in all equations",
      "rule": "loop rule",
      "section": "equations",
      "sentence": "These are exactly the currents when {part} has the wrong prefix.",
      "when": "{part} has the wrong prefix in all equations",
      "source": "Published problems in kΩ and mA, where it happens: OpenStax, University Physics Volume 2, ch. 10"
    },
    {
      "name": "missing-everywhere",
      "kind": "missing",
      "title": "A part left out of all equations",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "These are exactly the currents without {part}.",
      "when": "{part} is left out of all equations",
      "source": null
    },
    {
      "name": "always-minus",
      "kind": "sign",
      "title": "Minus for every resistor in all loops",
      "rule": "loop rule",
      "section": "loops",
      "sentence": "These are exactly the currents when every resistor term counts minus, whichever way its arrow points.",
      "when": "every resistor term counts minus in all loops, whichever way its arrow points",
      "source": "OpenStax, University Physics Volume 2, sec. 10.3 and OpenStax, College Physics 2e, sec. 21.3 (the rule that prevents it); reported by a teacher: A. Rundquist, blog, 7 October 2014"
    },
    {
      "name": "equal-split",
      "kind": "value",
      "title": "Equal shares at a junction",
      "rule": "loop rule",
      "section": "junctions",
      "sentence": "You let the current split into equal shares at junction {where}. It splits so that the loop rule holds.",
      "when": "the current is split into equal shares at junction {where}",
      "source": null
    },
    {
      "name": "nothing-in-wire",
      "kind": "missing",
      "title": "Nothing flows in the bare wire",
      "rule": "junction rule",
      "section": "junctions",
      "sentence": "You let nothing flow in {part}. A bare wire has no voltage and can carry any current: the junction rule finds it.",
      "when": "nothing is let flow in the bare wire {part}",
      "source": "Current thought of as following from the voltage across a part: Engelhardt and Beichner, Am. J. Phys. 72, 98 (2004)"
    }
  ]
};
