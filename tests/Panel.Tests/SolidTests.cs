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
}
