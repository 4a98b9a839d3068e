using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>The option --lint FOLDER: what is refused, what is doubtful and which sanity targets are missed, of every model in a folder. Serves nothing.</summary>
internal static class ModelLint
{
    public const string Switch = "--lint";

    private const int Fine = 0, Refused = 1, Usage = 2;

    /// <param name="ours">The folder of our models, whose pieces may be included.</param>
    public static int Run(string[] args, string ours, TextWriter output, DateOnly today)
    {
        var at = Array.IndexOf(args, Switch);
        if (at + 1 >= args.Length || !Directory.Exists(args[at + 1]))
        {
            output.WriteLine($"{Switch} wants a folder with a model.json, or with such folders.");
            return Usage;
        }

        var folder = args[at + 1];
        string[] paths = [.. Directory.EnumerateFiles(folder, "model.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
        if (paths.Length == 0)
        {
            output.WriteLine($"There is no model.json in {folder}.");
            return Usage;
        }

        var pieces = new[] { folder, ours }.SelectMany(PieceFiles.In)
            .DistinctBy(Path.GetFileNameWithoutExtension).ToDictionary(p => Path.GetFileNameWithoutExtension(p), Text);
        foreach (var model in Directory.EnumerateFiles(ours, "model.json", SearchOption.AllDirectories))
        {
            pieces.TryAdd(Path.GetFileName(Path.GetDirectoryName(model)!), Text(model)); // ours are named like their folders
        }

        return paths.Select(path => One(Text(path), pieces, output, today)).Max();
    }

    private static ModelText Text(string path) => new(path, File.ReadAllText(path));

    private static int One(ModelText text, IReadOnlyDictionary<string, ModelText> pieces, TextWriter output, DateOnly today)
    {
        var file = FaultModelFile.Read(text, pieces, () => new Dictionary<string, string>());
        if (file.Model?.Loaded.Compiled is not { } model)
        {
            output.WriteLine($"{text.Name}: refused");
            file.Reasons.ToList().ForEach(r => output.WriteLine($"  {r}"));
            return Refused;
        }

        var composed = FaultModelComposer.Compose(text, pieces);
        var warnings = FaultModelLinter.Lint(model.Source).Warnings;
        var missed = SanityTargets.Of(model, today).Where(f => !f.Met).ToList();
        output.WriteLine($"{text.Name}: {model.Source.Id} revision {model.Source.Revision} can be used; {warnings.Count} warnings, {missed.Count} sanity targets missed");
        foreach (var w in warnings)
        {
            output.WriteLine($"  {composed.PlaceOf(w.Path)}, {w.Path}: {w.Message} ({w.Rule})");
        }

        missed.ForEach(f => output.WriteLine(FormattableString.Invariant($"  {f.What}: {f.Value:0.###}, believable is {f.Low} to {f.High}")));
        return Fine;
    }
}
