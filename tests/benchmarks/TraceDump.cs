using System.Text.Json;
using FuelHistory.Benchmarks.Simulation;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks;

internal static class TraceDump
{
    private static readonly JsonSerializerOptions Plain = new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Write(string folder, string system, string path)
    {
        var pieces = FuelHistory.Host.Features.FaultModels.PieceFiles.In(folder).ToDictionary(f => Path.GetFileNameWithoutExtension(f), f => new ModelText(f, File.ReadAllText(f)));
        string file = Path.Combine(folder, system, "model.json");
        FaultModel model = FaultModelComposer.Compose(new ModelText(file, File.ReadAllText(file)), pieces).Read();
        var lot = new CarLot(model);
        var map = new ModelMap(model);
        ModeTrace sound = ModeTrace.Of(map, null);
        object Of(ModeTrace t) => new { shares = model.Cells.Select(c => (c.Id, S: t.Shares(c.Id).Where(x => !x.Of.Contains('.') && x.P >= 0.02).ToDictionary(x => x.Of, x => Math.Round(x.P, 4)))).Where(c => c.S.Count > 0).ToDictionary(c => c.Id, c => c.S), cells = t.Cells.Where(c => Math.Abs(c.Value - sound.Cells[c.Key]) > 1e-9).ToDictionary(c => c.Key, c => Math.Round(c.Value, 4)), checks = t.Checks.Where(c => c.Value.Zip(sound.Checks[c.Key]).Any(z => Math.Abs(z.First - z.Second) > 1e-9)).ToDictionary(c => c.Key, c => c.Value.Select(v => Math.Round(v, 4))) };
        var dump = new
        {
            system,
            modes = model.Components.Where(c => !c.Instrument).SelectMany(c => c.Modes.Select((m, i) => new { id = $"{c.Id}.{m.Id}", component = c.Title, title = m.Title, prior = lot.Priors[c.Id][i + 1], trace = Of(ModeTrace.Of(map, $"{c.Id}.{m.Id}")) })),
            cells = model.Cells.Select(c => new { id = c.Id, ev = c.Event ?? c.Id, when = c.When, then = c.Then, title = c.Title, background = c.Background, causes = c.Causes.Select(x => new { of = x.Of, p = x.P, at = x.At, source = x.Source }), other = model.Elsewhere.Cells.GetValueOrDefault(c.Id, model.Elsewhere.P) }),
            checks = model.Checks.Select(c => new { id = c.Id, title = c.Title, kind = c.Kind.ToString(), yes = c.Yes, no = c.No, measures = c.Measures, outcomes = c.Outcomes?.Select(o => new { id = o.Id, title = o.Title }), otherwise = c.Otherwise, falseAlarm = c.FalseAlarm, byLevel = c.ByLevel != null, watches = c.Watches, store = c.Store, detects = c.Detects?.Select(x => new { of = x.Of, p = x.P, at = x.At }), table = c.Table?.Select(x => new { of = x.Of, p = x.P, at = x.At }), sound = sound.Checks[c.Id].Select(v => Math.Round(v, 4)) }),
            trials = model.Trials.Select(t => new { id = t.Id, title = t.Title, kind = t.Kind.ToString(), component = t.Component, right = t.Right, moves = t.Moves }),
            events = model.Events.Select(e => new { id = e.Id, title = e.Title, kind = e.Kind }),
            conditions = model.Conditions.Select(c => new { id = c.Id, title = c.Title, min = c.Min, max = c.Max, effects = c.Effects.Select(x => new { of = x.Of, adds = x.Adds, at = x.At }) }),
        };
        File.WriteAllText(path, JsonSerializer.Serialize(dump, Plain));
    }
}
