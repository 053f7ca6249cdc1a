"""What every page shares.

The app's book and settings for a request, roles, security headers, forms, languages and the way
through the steps.

Open to other rooms: editing, forms, guard, here, keeping, languages, meanwhile, rule, security,
settings, solver, spine, watch.
"""
