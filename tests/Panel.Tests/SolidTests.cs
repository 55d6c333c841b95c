using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Panel.Tests;

/// <summary>The outer faces of a solid, by the page's own module.</summary>
[Collection(BrowserTests.Name)]
public class SolidTests(Chromium browser)
{
    // For solids made by chance from a seed: each side's faces have the area of the cells that are open to that side, up to every cut, and a lid that of
    // its layer.
    private const string Differences = """
        async seed => {
            const { Faces, Volume } = await import('/solid/faces.js');
            const steps = [1, -1, 0, 0, 0, 0].map((x, side) => [x, [0, 0, 1, -1, 0, 0][side], [0, 0, 0, 0, 1, -1][side]]);
            const next = () => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
            const found = [];
            for (let trial = 0; trial < 40; trial++) {
                const volume = new Volume(1 + Math.floor(next() * 7), 1 + Math.floor(next() * 7), 1 + Math.floor(next() * 5));
                const { x: columns, y: rows, layers, area, cells } = volume;
                const fill = next();
                cells.forEach((_, at) => { cells[at] = next() < fill ? 1 + Math.floor(next() * 2) : 0; });
                const at = (x, y, z) => x < 0 || y < 0 || z < 0 || x >= columns || y >= rows || z >= layers ? 0 : cells[z * area + y * columns + x];
                const faces = new Faces(volume);
                while (faces.addLayer());
                const areaOf = (list, count) => {
                    let sum = 0;
                    for (let face = 0; face < count; face++) sum += list.numbers[face * 6 + 3] * list.numbers[face * 6 + 4];
                    return sum;
                };
                steps.forEach(([dx, dy, dz], side) => {
                    let open = 0;
                    for (let z = 0; z < layers; z++) {
                        for (let y = 0; y < rows; y++) for (let x = 0; x < columns; x++) if (at(x, y, z) && !at(x + dx, y + dy, z + dz)) open++;
                        const made = areaOf(faces.lists[side], faces.ends[side][z]);
                        if (made !== open) found.push(`trial ${trial}, side ${side}, up to layer ${z}: ${made} instead of ${open}`);
                    }
                });
                const lid = faces.lid(layers - 1);
                const worked = cells.slice((layers - 1) * area).filter(cell => cell).length;
                if (areaOf(lid, lid.count) !== worked) found.push(`trial ${trial}: a lid of ${areaOf(lid, lid.count)} instead of ${worked}`);
            }
            return found;
        }
        """;

    // Solids made by chance from a seed, seen from everywhere and cut anywhere: the largest share of pixels, of all that WebGL shows and
    // that are on no edge, at which the plain picture shows another head, or nothing; the second solid may be turned away from the first.
    private const string PicturesApart = """
        async ([seed, away]) => {
            const { Faces, Volume } = await import('/solid/faces.js');
            const { Scene } = await import('/solid/scene.js');
            const { PlainScene } = await import('/solid/plain-scene.js');
            const next = () => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
            const [inks, side] = [{ a: [1, 0, 0], b: [0, 0, 1], bed: [0, 1, 0] }, 300];
            const canvases = [0, 1].map(() => Object.assign(document.createElement('canvas'), { width: side, height: side }));
            const scenes = [Scene.make(canvases[0]), new PlainScene(canvases[1])];
            const shown = canvas => {
                const flat = Object.assign(document.createElement('canvas'), { width: side, height: side }).getContext('2d');
                flat.drawImage(canvas, 0, 0);
                const { data } = flat.getImageData(0, 0, side, side);
                return Uint8Array.from({ length: side * side }, (_, at) => data[4 * at + 2] > 60 ? 2 : data[4 * at] > 60 ? 1 : 0);
            };
            let worst = 0;
            for (let trial = 0; trial < 40; trial++) {
                const volume = new Volume(1 + Math.floor(next() * 9), 1 + Math.floor(next() * 9), 1 + Math.floor(next() * 6));
                const fill = 0.2 + 0.8 * next();
                volume.cells.forEach((_, at) => { volume.cells[at] = next() < fill ? 1 + Math.floor(next() * 2) : 0; });
                const faces = new Faces(volume);
                while (faces.addLayer());
                const [top, view] = [Math.floor(next() * volume.layers), { yaw: next() * 6.3, tilt: (next() - 0.5) * 3.1, size: 0.95 }];
                scenes.forEach((scene, index) => {
                    scene.take(faces, [2, 2, 1]);
                    scene.cut(top);
                    scene.draw({ ...view, yaw: view.yaw + index * away }, inks);
                });
                const [one, other] = canvases.map(shown);
                const isOnEdge = at => [-side - 1, -side, -side + 1, -1, 1, side - 1, side, side + 1].some(step => one[at + step] !== one[at]);
                const inside = [...one.keys()].filter(at => one[at] !== 0 && !isOnEdge(at));
                if (inside.length > 0) worst = Math.max(worst, inside.filter(at => one[at] !== other[at]).length / inside.length);
            }
            return worst;
        }
        """;

    [BrowserFact]
    public async Task The_plain_picture_shows_the_same_cells_as_the_one_by_WebGL_from_everywhere_but_for_edges()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        Assert.InRange(await page.EvaluateAsync<double>(PicturesApart, new[] { 20_261_126, 0 }), 0, 0.01);
        Assert.InRange(await page.EvaluateAsync<double>(PicturesApart, new[] { 20_261_126, 0.1 }), 0.1, 1); // it tells pictures apart
    }

    [BrowserFact]
    public async Task Without_WebGL_the_solid_is_drawn_turned_and_cut_on_a_plain_canvas()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync(isPlain: true);
        Assert.True(await page.EvaluateAsync<bool>("() => document.createElement('canvas').getContext('webgl2') === null"));
        await page.PlanStileAsync();
        await page.Button("Solid").ClickAsync();
        var solid = page.Locator("#solid-canvas");
        await Expect(solid).ToHaveAttributeAsync("data-drawn", new System.Text.RegularExpressions.Regex("."));
        var seen = new List<byte[]> { await solid.ScreenshotAsync() };
        await page.Button("Left").ClickAsync();
        seen.Add(await ShotAsync(page, solid));
        await page.GetByLabel("Cut above layer").FillAsync("0");
        seen.Add(await ShotAsync(page, solid));
        Assert.All(seen.Zip(seen.Skip(1)), pair => Assert.NotEqual(pair.First, pair.Second));
    }

    [BrowserFact]
    public async Task The_faces_of_each_side_have_the_area_that_is_open_to_it_up_to_every_cut()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        Assert.Empty(await page.EvaluateAsync<string[]>(Differences, 20_260_504));
    }

    [BrowserFact]
    public async Task A_whole_block_has_one_lid_one_floor_and_one_wall_a_layer_on_each_side()
    {
        await using var panel = await ServedPanel.StartAsync(browser);
        var page = await panel.OpenAsync();
        var counts = await page.EvaluateAsync<int[]>("""
            async () => {
                const { Faces, Volume } = await import('/solid/faces.js');
                const volume = new Volume(9, 5, 3);
                volume.cells.fill(1);
                const faces = new Faces(volume);
                while (faces.addLayer());
                return faces.lists.map(list => list.count);
            }
            """);
        Assert.Equal([3, 3, 3, 3, 1, 1], counts);
    }

    private static async Task<byte[]> ShotAsync(IPage page, ILocator solid)
    {
        await page.WaitForTimeoutAsync(200);
        var shot = await solid.ScreenshotAsync();
        var shots = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "screens")).FullName;
        await File.WriteAllBytesAsync(Path.Combine(shots, "solid-plain.png"), shot);
        return shot;
    }
}
