"""Which pages a phone keeps, whose they are, and the files it needs to show them."""

import json
import re

from app.web.offline_assets import assets, assets_for, service_worker, shell_digest
from app.web.scripts import JS, script_names, scripts_digest, sentences


def test_a_workers_list_has_every_module_with_each_of_its_pages(ola, curriculum):
    told = ola.get("/on-this-phone/list").get_json()
    modules = {group["id"]: group["urls"] for group in told["groups"] if group["title"]}
    assert list(modules) == list(curriculum.modules)
    for name, urls in modules.items():
        steps = len(curriculum.module(name).lesson("en").steps)
        assert urls[0] == f"/learn/{name}"
        assert f"/learn/{name}/steps/{steps}" in urls
        assert len(urls) == steps + 2


def test_every_page_of_the_list_may_be_kept_and_says_whose_it_is(ola, ola_id):
    told = ola.get("/on-this-phone/list").get_json()
    for url in {group["urls"][-1] for group in told["groups"]} | {"/learn"}:
        answer = ola.get(url)
        assert answer.headers["Lowport-Person"] == ola_id, url
        assert answer.headers["Lowport-Keep"] == "yes", url


def test_other_pages_are_never_kept(ola):
    for url in ("/my-standing", "/sources"):
        assert "Lowport-Keep" not in ola.get(url).headers
    assert "Lowport-Keep" not in ola.get("/learn/no-such-module").headers


def test_a_stranger_gets_no_list_and_no_name(client):
    assert client.get("/on-this-phone/list").status_code == 302
    assert "Lowport-Person" not in client.get("/sign-in").headers


def test_the_list_is_made_from_something_else_once_the_looks_change(ola):
    first = ola.get("/on-this-phone/list").get_json()["digest"]
    assert ola.get("/on-this-phone/list").get_json()["digest"] == first
    ola.post("/show", data={"language": "es"})
    assert ola.get("/on-this-phone/list").get_json()["digest"] != first


def test_every_file_of_the_list_is_there_and_every_script_is_on_it(client):
    for url in assets():
        answer = client.get(url)
        assert answer.status_code == 200, url
        assert answer.data, url
    everybodys = {url.split("/", 3)[-1] for url in assets()}
    trainers = {url.split("/", 3)[-1] for url in assets_for({"trainer", "worker"})}
    assert not everybodys & trainers
    online_only = {
        name for name in script_names() if name.startswith("practice") and "-page" not in name
    }
    assert everybodys | trainers >= set(script_names()) - online_only


def test_a_phone_without_a_trainer_keeps_nothing_for_the_wall(ola, cast):
    cast.add("tom.trainer", "trainer", "worker")
    for client, is_there in ((ola, False), (cast.sign_in("tom.trainer"), True)):
        files = client.get("/on-this-phone/list").get_json()["assets"]
        assert any("/wall/" in url for url in files) is is_there


def test_the_service_worker_is_asked_for_again_each_time(client):
    answer = client.get("/sw.js")
    assert answer.mimetype == "text/javascript"
    assert answer.headers["Cache-Control"] == "no-cache"
    text = answer.get_data(as_text=True)
    assert f'"lowport-shell-{shell_digest()}"' in text
    assert text == service_worker()


def test_scripts_are_kept_by_their_digest_and_import_only_what_is_there(client):
    answer = client.get(f"/assets/js-{scripts_digest()}/phone.js")
    assert answer.headers["Cache-Control"] == "public, max-age=31536000, immutable"
    assert "Set-Cookie" not in answer.headers
    old = client.get("/assets/js-0000000000000000/phone.js")
    assert "max-age=0" in old.headers["Cache-Control"]
    assert client.get(f"/assets/js-{scripts_digest()}/no-such.js").status_code == 404
    for name in script_names():
        for found in re.findall(r'from "(\.[^"]+)"', (JS / name).read_text()):
            assert (JS / name).parent.joinpath(found).is_file(), (name, found)


def test_the_scripts_sentences_come_in_spanish(client):
    text = client.get(f"/assets/js-{scripts_digest()}/words/es.js").get_data(as_text=True)
    table = json.loads(text.removeprefix("export default ").rstrip().removesuffix(";"))
    assert table["length"] == "una medida de largo"  # a name of the code, said in words
    assert table["resin_temperature"] == "temperatura de la resina"
    same = set(sentences()) - set(table)
    assert same <= {"{count} min", "{count} h", "…"}, "these have no Spanish"
    assert client.get(f"/assets/js-{scripts_digest()}/words/xx.js").status_code == 404


def test_the_page_without_signal_knows_nobody(ola, client):
    pages = [one.get("/offline") for one in (ola, client)]
    for page in pages:
        assert "Lowport-Person" not in page.headers
        assert "csrf_token" not in page.get_data(as_text=True)
        assert "Ola" not in page.get_data(as_text=True)
    assert pages[0].data == pages[1].data


def test_the_manifest_names_icons_of_the_size_they_say(client):
    answer = client.get("/assets/manifest.webmanifest")
    assert answer.mimetype == "application/manifest+json"
    manifest = json.loads(answer.data)
    page = client.get("/sign-in").get_data(as_text=True)
    assert 'rel="manifest" href="/assets/manifest.webmanifest"' in page
    purposes = set()
    for icon in manifest["icons"]:
        data = client.get(f"/assets/{icon['src']}").data
        purposes.add(icon.get("purpose", "any"))
        if icon["type"] == "image/png":
            # PNG (ISO/IEC 15948) 11.2.2: width and height are the first eight bytes of IHDR.
            size = [int.from_bytes(data[at : at + 4], "big") for at in (16, 20)]
            assert "x".join(map(str, size)) == icon["sizes"]
    assert purposes == {"any", "maskable"}
