using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.FaultModels;

namespace FuelHistory.Benchmarks;

/// <summary>The fault model, and the search that the figures of speed are taken on.</summary>
internal static class Bench
{
    private static readonly DateOnly Day = new(2025, 5, 1);

    private const string Usual = "continuous-mechanical";

    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "fault-models");

    /// <summary>The fault model that is named among the words of a command; else the usual one.</summary>
    public static CompiledModel Named(IEnumerable<string> words) => Model(words.FirstOrDefault(w => File.Exists(Path.Combine(Folder, w, "model.json"))) ?? Usual);

    public static CompiledModel Model(string id = Usual)
    {
        var pieces = PieceFiles.In(Folder).ToDictionary(path => Path.GetFileNameWithoutExtension(path), Read);
        return new CompiledModel(FaultModelComposer.Compose(Read(Path.Combine(Folder, id, "model.json")), pieces).Read());
    }

    /// <summary>Ids of all fault models of the tree.</summary>
    public static IReadOnlyList<string> Ids { get; } = [.. Directory.GetFiles(Folder, "model.json", SearchOption.AllDirectories)
        .Select(path => Path.GetFileName(Path.GetDirectoryName(path)!)).Order(StringComparer.Ordinal)];

    /// <summary>A file that lies beside a model.</summary>
    public static string Beside(string id, string file) => Path.Combine(Folder, id, file);

    private static ModelText Read(string path) => new(path, File.ReadAllText(path));

    public static AssessmentInput Input() => Input(Findings().Select((f, i) => f with { At = At(i) }), []);

    /// <summary>Three parts fitted during the search, one event present all the time: twenty findings in four stretches.</summary>
    public static AssessmentInput FourStretches()
    {
        var blank = new Observation { Id = "", ComplaintId = "c", At = default, Day = Day, RecordedAt = default, Session = "day" };
        Observation Answer(string cell, bool present) => blank with { Event = cell, Outcome = present ? "present" : "absent" };
        Observation Saw(string check, string outcome) => blank with { Check = check, Outcome = outcome };
        Observation Read(string check, double value) => blank with { Check = check, Value = value, Instrument = "gauge" };
        Observation[][] stretches = [
            [Answer("no-power", true), Answer("rough-idle-cold", false), Answer("rich-smoke", false), Answer("hard-start-hot", false), Answer("hard-start-cold", false),
                Answer("fuel-smell", false), Read("system-pressure", 4.9), Saw("wet-hoses", "dry"), Saw("fuse-look", "sound")],
            [Answer("no-power", true), Saw("pump-listen", "hum"), Read("control-warm", 3.6), Read("pump-voltage", 12.4)],
            [Answer("no-power", true), Saw("accumulator-vent", "no"), Saw("filter-arrow", "no")],
            [Answer("no-power", true), blank with { Check = "leak-down-whole", Points = [new LeakPoint(10, 2.1)], Instrument = "gauge" }, Answer("rough-idle-cold", false), Read("system-pressure", 4.8)]];
        string[] fitted = ["filter", "throttle", "tank"];
        return Input(
            stretches.SelectMany((stretch, s) => stretch.Select((f, i) => f with { At = At((20 * s) + i), Session = $"{s}" })),
            fitted.Select((part, s) => new WorkFact(part, Day, WorkAction.Fitted, [part], Known.DidIt, PartQuality.New, At((20 * s) + 15), At: At((20 * s) + 15))));
    }

    private static AssessmentInput Input(IEnumerable<Observation> findings, IEnumerable<WorkFact> during) => new(
        new CarRecord
        {
            FirstUse = new DateOnly(1981, 7, 1),
            Odometer = [new OdometerFix(Day, 180_000)],
            Work = [
                new WorkFact("pump", new DateOnly(2024, 10, 15), WorkAction.Fitted, ["pump"], Known.Invoice, PartQuality.New, At(0)),
                new WorkFact("injectors", new DateOnly(2022, 5, 15), WorkAction.Fitted, ["injectors"], Known.Told, PartQuality.Unknown, At(0)),
                .. during],
            Instruments = [new InstrumentFact("gauge", 10, 1.6, 0.1, null, null, new DateOnly(2025, 1, 1))],
            Findings = [.. findings.Select((f, i) => f with { Id = $"f{i}", RecordedAt = f.At })],
        },
        new ComplaintFact("c", new DateOnly(2025, 4, 1), false, false),
        Day);

    private static IEnumerable<Observation> Findings()
    {
        string[] present = ["hard-start-hot", "hard-start-overnight", "hot-catches-and-dies"];
        string[] absent = ["hard-start-cold", "flooded-start", "starts-then-stalls", "no-start", "rough-idle-cold", "rough-idle-warm", "stalls-at-idle", "hunting", "no-power", "rich-smoke", "pump-noisy", "fuel-smell"];
        (string Check, string Outcome)[] looked = [("accumulator-vent", "no"), ("wet-hoses", "dry"), ("fuse-look", "sound"), ("filter-arrow", "no"), ("pump-listen", "hum")];
        (string Check, double Value)[] read = [("system-pressure", 4.9), ("control-warm", 3.6), ("pump-voltage", 12.1)];
        (string Check, double Minutes, double Bar)[] watched = [("leak-down-whole", 10, 0.8), ("leak-down-gauge", 5, 4.8)];
        var blank = new Observation { Id = "", ComplaintId = "c", At = default, Day = Day, RecordedAt = default, Session = "day" };
        return [
            .. present.Select(s => blank with { Event = s, Outcome = "present" }),
            .. absent.Select(s => blank with { Event = s, Outcome = "absent" }),
            .. looked.Select(c => blank with { Check = c.Check, Outcome = c.Outcome }),
            .. read.Select(c => blank with { Check = c.Check, Value = c.Value, Instrument = c.Check == "pump-voltage" ? null : "gauge" }),
            .. watched.Select(c => blank with { Check = c.Check, Points = [new LeakPoint(c.Minutes, c.Bar)], Instrument = "gauge" })];
    }

    private static DateTimeOffset At(int minute) => new DateTimeOffset(2025, 5, 1, 8, 0, 0, TimeSpan.Zero).AddMinutes(minute);
}
