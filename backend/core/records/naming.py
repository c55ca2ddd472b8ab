"""What records are called: by their own name, else after those they link to, on screens as in files."""


def name_of(kind, record, find):
    """Tell what a record is called.

    Takes: kind, its declaration; record, its fields; find(kind name, id), another record, None where it is
    not here.
    """
    if record["name"]:
        return record["name"]
    links = kind.describe_naming()
    linked = [find(link["kind"], record[link["field"]]) for link in links["after"]]
    names = [one["name"] for one in linked if one and one["name"]]
    return links["joiner"].join(names) or links["otherwise"]
