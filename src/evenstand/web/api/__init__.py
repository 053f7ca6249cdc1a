"""The JSON API.

One table of operations makes the routes and the OpenAPI document.

Open to other rooms: answers, routes.
"""
