"""A WebKit window whose data lasts, for the system's Python, which knows GTK: `lasting_window.py FOLDER`.

A session of the driver ends with the process that has its databases; this window goes on as a person's does.
Reads a line of JSON a command, {"load": address}, {"loads": how many pages to wait for since the start} or
{"call": body of an async function that resolves to a text}, and writes a line for each: {"told": the text, or
how many pages were loaded} or {"failed": words}.
"""

import json
import sys

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import GLib, Gtk, WebKit2  # noqa: E402


class Window:
    """The window and the commands that it was given."""

    def __init__(self, folder):
        data = WebKit2.WebsiteDataManager(
            base_data_directory=f"{folder}/data", base_cache_directory=f"{folder}/cache"
        )
        context = WebKit2.WebContext.new_with_website_data_manager(data)
        self.view = WebKit2.WebView.new_with_context(context)
        self.view.connect("load-changed", self.changed)
        window = Gtk.Window(default_width=390, default_height=844)
        window.add(self.view)
        window.show_all()
        self.loads, self.awaited = 0, None
        GLib.io_add_watch(sys.stdin, GLib.PRIORITY_DEFAULT, GLib.IO_IN | GLib.IO_HUP, self.read)

    def read(self, *_):
        line = sys.stdin.readline()
        if not line:
            Gtk.main_quit()
            return False
        command = json.loads(line)
        if "call" not in command:
            self.awaited = command.get("loads", self.loads + 1)
            if "load" in command:
                self.view.load_uri(command["load"])
            self.tell_loads()
        else:
            self.view.call_async_javascript_function(command["call"], -1, None, None, None, None, self.called)
        return True

    def changed(self, _, event):
        if event == WebKit2.LoadEvent.FINISHED:
            self.loads += 1
            self.tell_loads()

    def tell_loads(self):
        if self.awaited is not None and self.loads >= self.awaited:
            self.awaited = None
            say({"told": self.loads})

    def called(self, view, result):
        try:
            say({"told": view.call_async_javascript_function_finish(result).to_string()})
        except GLib.Error as error:
            say({"failed": error.message})


def say(told):
    print(json.dumps(told), flush=True)


Window(sys.argv[1])
Gtk.main()
