using System.Diagnostics;
using System.Net;
using System.Security.Cryptography;
using System.Text.Json;
using Dapper;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.LimitsLibrary;
using FuelHistory.Host.Shipped;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Tests.Host;

/// <summary>What the build linted is not linted at the start; what differs from it is.</summary>
public sealed class CheckedAtBuildTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("fuelhistory-test-").FullName;

    public CheckedAtBuildTests()
    {
        Directory.CreateDirectory(Path.Combine(Models, "test"));
        Directory.CreateDirectory(Limits);
        File.Copy(Path.Combine(ApiHost.TestModels, "test", "model.json"), Model);
        Directory.GetFiles(ApiHost.TestLibrary).ToList().ForEach(f => File.Copy(f, Path.Combine(Limits, Path.GetFileName(f))));
    }

    private string Models => Path.Combine(folder, "fault-models");

    private string Model => Path.Combine(Models, "test", "model.json");

    private string Limits => Path.Combine(folder, "limits-library");

    private string Stamped => Path.Combine(folder, CheckedAtBuild.FolderName);

    private string Stamp => Path.Combine(Stamped, BuildStamp.FileName);

    [Fact]
    public void Models_and_limits_as_the_build_left_them_are_those_that_the_linter_saw()
    {
        CheckedAtBuild.Write(Stamped, Models, Limits);
        var known = CheckedAtBuild.Find(Stamped, Models, Limits);

        FaultModelFolder lazy = new(Models, null, known), eager = new(Models);
        Assert.Equal(eager.Known.Select(Named), lazy.Known.Select(Named));
        Assert.Equal(Json(eager.Needed("test-circuit")), Json(lazy.Needed("test-circuit")));
        Assert.Equal(new LibraryFolder(Limits, eager).Library.Limits.Select(l => l.Id), new LibraryFolder(Limits, lazy, known).Library.Limits.Select(l => l.Id));

        static (string, string, string, string, bool) Named(KnownModel m) => (m.Id, m.Title, m.Revision, m.Sha256, m.Own);
    }

    /// <summary>Read in the short way, each shipped model is the same as put together from its pieces.</summary>
    [Fact]
    public void Stamp_of_this_build_fits_all_that_ships()
    {
        var ships = Path.Combine(AppContext.BaseDirectory, "fault-models");
        var known = CheckedAtBuild.Find(Path.Combine(AppContext.BaseDirectory, CheckedAtBuild.FolderName), ships, Path.Combine(AppContext.BaseDirectory, "limits-library"));

        Assert.InRange(known!.Models.Count, 7, 20);
        var pieces = PieceFiles.In(ships).ToDictionary(p => Path.GetFileNameWithoutExtension(p), p => new ModelText(p, File.ReadAllText(p)));
        Assert.All(known.Models, m => Assert.Equal(Json(FaultModelComposer.Compose(new ModelText(m.File, File.ReadAllText(m.File)), pieces).Read()), Json(m.Loaded.Compiled.Source)));
        Assert.All(known.Models, m => Assert.NotEmpty(m.Loaded.PairReasons));
    }

    [Fact]
    public async Task Edited_model_with_the_stamp_of_before_stops_the_start_with_file_and_line()
    {
        CheckedAtBuild.Write(Stamped, Models, Limits);
        File.WriteAllText(Model, File.ReadAllText(Model).Replace("\"repeat\"", "\"repaet\"", StringComparison.Ordinal));

        var (code, said) = await Started();

        Assert.Equal(1, code);
        Assert.Matches($"{Model}.* line [1-9][0-9]+, .*repaet", said);
    }

    [Fact]
    public async Task Edited_limit_with_the_stamp_of_before_stops_the_start_with_the_rule()
    {
        CheckedAtBuild.Write(Stamped, Models, Limits);
        Change(Path.Combine(Limits, "test.json"), text => text.Replace("\"high\": 5.6", "\"high\": 4.4", StringComparison.Ordinal));

        var (code, said) = await Started();

        Assert.Equal(1, code);
        Assert.Contains("limits[system-pressure-1].low: Low must be below high. (order)", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Stamp_is_not_believed_after_any_change()
    {
        CheckedAtBuild.Write(Stamped, Models, Limits);
        Assert.NotNull(Found());
        var stamp = File.ReadAllText(Stamp);

        Changed(Model, text => text + " ");
        Changed(Path.Combine(Limits, "sources.json"), text => text + " ");
        Changed(Stamp, text => text.Replace(BuildStamp.ThisProgram, new string('0', 32), StringComparison.Ordinal));
        Changed(Stamp, text => text[..^3]);
        Changed(Directory.GetFiles(Stamped, "*.gz").Single(), _ => "nothing");
        File.WriteAllText(Path.Combine(Models, "test", "test-more.json"), "{}");
        Assert.Null(Found());
        File.Delete(Path.Combine(Models, "test", "test-more.json"));
        File.Move(Path.Combine(Limits, "test.json"), Path.Combine(Limits, "tests.json"));
        Assert.Null(Found());
        File.Move(Path.Combine(Limits, "tests.json"), Path.Combine(Limits, "test.json"));
        Assert.NotNull(Found());
        File.Delete(Stamp);
        Assert.Null(Found());

        void Changed(string path, Func<string, string> change)
        {
            var before = File.ReadAllBytes(path);
            Change(path, change);
            Assert.Null(Found());
            File.WriteAllBytes(path, before);
        }
    }

    [Fact]
    public void Library_changed_after_the_start_is_served_as_it_was_linted()
    {
        CheckedAtBuild.Write(Stamped, Models, Limits);
        LibraryFolder library = new(Limits, new FaultModelFolder(Models, null, Found()), Found());
        File.WriteAllText(Path.Combine(Limits, "test.json"), "nothing");

        Assert.NotEmpty(library.Library.Limits);
    }

    /// <summary>Reading behind comes upon it first, and ends nothing.</summary>
    [Fact]
    public async Task Model_that_cannot_be_read_after_all_is_told_to_who_asks_and_the_host_serves_on()
    {
        CheckedAtBuild.Write(Stamped, Models, Limits);
        var packed = Path.Combine(Stamped, "test-circuit.json.gz");
        File.WriteAllBytes(packed, PackedText.Pack("{ \"schema\": 1 }"));
        var stamp = JsonSerializer.Deserialize(File.ReadAllText(Stamp), StampJson.Default.BuildStamp)!;
        var forged = stamp with { Models = [stamp.Models[0] with { PackedSha256 = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(packed))) }] };
        File.WriteAllText(Stamp, JsonSerializer.Serialize(forged, StampJson.Default.BuildStamp));
        using ApiHost host = new(checkedAtBuild: Stamped);

        Warming.Read(host.Models, [], CancellationToken.None);

        Assert.Equal("test-circuit", (await host.Get("/v1/fault-models")).Body[0].GetProperty("id").GetString());
        var refused = await host.Get("/v1/fault-models/test-circuit");
        Assert.Equal((HttpStatusCode.ServiceUnavailable, Problems.FaultModelUnusable), (refused.Status, refused.Code));
        Assert.Matches("\"test-circuit\" cannot be read: .*schema.*nothing of the record is lost", refused.Detail);
        Assert.Equal("ready", (await host.Get("/readyz")).Member("status"));
    }

    [Fact]
    public async Task Shipped_model_is_kept_with_the_record_at_the_start_without_being_read()
    {
        CheckedAtBuild.Write(Stamped, Models, Limits);
        using ApiHost host = new(checkedAtBuild: Stamped);
        using var raw = host.Raw();
        var (sha256, packed) = raw.QuerySingle<(string, byte[])>("SELECT sha256, packed FROM fault_model WHERE model_id = 'test-circuit'");

        Assert.Equal(new FaultModelFolder(ApiHost.TestModels).Known.Single().Sha256, sha256);
        Assert.Equal(File.ReadAllBytes(Path.Combine(Stamped, "test-circuit.json.gz")), packed);
        var complaint = await host.Complaint(await host.Vehicle());
        Assert.Equal("answered", (await host.Get($"/v1/complaints/{complaint}/assessment")).Member("outcome"));
    }

    [Fact]
    public void Check_by_the_build_tells_refusals_where_the_files_come_from_and_leaves_no_stamp()
    {
        StringWriter output = new();
        Assert.Equal(0, ShippedCheck.Run([ShippedCheck.Switch, "/source"], folder, output));
        Assert.NotNull(Found());
        Change(Model, text => text.Replace("\"repeat\"", "\"repaet\"", StringComparison.Ordinal));

        Assert.Equal(1, ShippedCheck.Run([ShippedCheck.Switch, "/source"], folder, output));

        Assert.Matches("FuelHistory : error SHIPPED: /source/fault-models/test/model.json, line [1-9][0-9]+, .*repaet", output.ToString());
        Assert.False(File.Exists(Stamp));
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private CheckedAtBuild? Found() => CheckedAtBuild.Find(Stamped, Models, Limits);

    private static void Change(string path, Func<string, string> change) => File.WriteAllText(path, change(File.ReadAllText(path)));

    private static string Json(FaultModel model) => JsonSerializer.Serialize(model);

    /// <summary>The program itself, over these files: its exit code and what it says.</summary>
    private async Task<(int Code, string Said)> Started()
    {
        ProcessStartInfo info = new("dotnet",
        [
            typeof(StartException).Assembly.Location, "--urls", "http://127.0.0.1:0", "--Parent:Watch", "stdin", "--Database", Path.Combine(folder, "own.db"),
            "--FaultModels", Models, "--LimitsLibrary", Limits, "--CheckedAtBuild", Stamped,
        ])
        { RedirectStandardInput = true, RedirectStandardError = true, RedirectStandardOutput = true };
        using var host = Process.Start(info)!;
        host.StandardInput.Close(); // a host that starts all the same ends by itself
        var said = await host.StandardError.ReadToEndAsync();
        await host.WaitForExitAsync();
        return (host.ExitCode, said);
    }
}
