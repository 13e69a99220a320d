"""Apply: a checked Circuit becomes branches, equations, exact currents and what they mean. No files, no drawing."""
