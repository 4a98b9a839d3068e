using System.Text.Json.Nodes;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Tests.Host;

public sealed class FaultModelFolderTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;

    [Fact]
    public void Folder_with_good_models_is_read()
    {
        Put("one", _ => { });

        Assert.Equal("test-circuit", Assert.Single(new FaultModelFolder(folder).All).Id);
    }

    [Fact]
    public void Model_that_is_not_of_the_form_stops_the_start_with_file_line_and_member()
    {
        Put("one", _ => { });
        var path = Path.Combine(folder, "one", "model.json");
        File.WriteAllText(path, File.ReadAllText(path).Replace("\"repeat\"", "\"repaet\"", StringComparison.Ordinal));

        var refused = Refused();
        Assert.Contains(path, refused, StringComparison.Ordinal);
        Assert.Matches("line [1-9][0-9]+, .*repaet", refused);
    }

    [Fact]
    public void Model_that_breaks_rules_stops_the_start_with_all_of_them()
    {
        Put("one", model =>
        {
            model["components"]![0]!["modes"]![0]!["unnoticed"] = 1.5;
            model["cells"]![0]!["source"] = "nowhere";
        });

        var refused = Refused();
        Assert.Contains("1.5", refused, StringComparison.Ordinal);
        Assert.Contains("nowhere", refused, StringComparison.Ordinal);
    }

    [Fact]
    public void Models_that_cannot_be_used_are_all_named()
    {
        Put("one", model => model["cells"]![0]!["source"] = "nowhere");
        Put("two", model => model["cells"]![0]!["source"] = "elsewhere");

        var refused = Refused();
        Assert.Matches("one.model.json cannot be used:\\s+.*one.model.json, line [1-9][0-9]*, .*nowhere", refused);
        Assert.Matches("two.model.json cannot be used:\\s+.*two.model.json, line [1-9][0-9]*, .*elsewhere", refused);
    }

    [Fact]
    public void Two_models_of_one_id_stop_the_start()
    {
        Put("one", _ => { });
        Put("two", _ => { });

        Assert.Contains("test-circuit", Refused(), StringComparison.Ordinal);
    }

    [Fact]
    public void Folder_that_is_missing_or_empty_stops_the_start()
    {
        Assert.Contains("no fault model", Refused(), StringComparison.Ordinal);
        Assert.Throws<StartException>(() => new FaultModelFolder(Path.Combine(folder, "none")));
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Refused() => Assert.Throws<StartException>(() => new FaultModelFolder(folder)).Message;

    private void Put(string name, Action<JsonNode> change)
    {
        var model = JsonNode.Parse(File.ReadAllText(Path.Combine(ApiHost.TestModels, "test", "model.json")))!;
        change(model);
        Directory.CreateDirectory(Path.Combine(folder, name));
        File.WriteAllText(Path.Combine(folder, name, "model.json"), model.ToJsonString(new() { WriteIndented = true }));
    }
}
