using System.Security.Cryptography;
using System.Text;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>The fault models beside the program: one folder each, with a model.json; what several include is in shared/. Read once at the start.</summary>
public sealed class FaultModelFolder
{
    private readonly IncrementalHash read = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly SortedDictionary<string, CompiledModel> models = new(StringComparer.Ordinal);

    /// <exception cref="StartException">A model cannot be used; the message says which, where and why.</exception>
    public FaultModelFolder(string folder)
    {
        if (!Directory.Exists(folder))
        {
            throw new StartException($"There is no folder of fault models at {folder}.");
        }

        var pieces = Pieces(Path.Combine(folder, "shared"));
        foreach (var path in Directory.EnumerateFiles(folder, "model.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            Add(path, pieces);
        }

        if (models.Count == 0)
        {
            throw new StartException($"There is no fault model in {folder}; each is a folder with a model.json.");
        }

        Fingerprint = Convert.ToHexStringLower(read.GetHashAndReset())[..8];
        read.Dispose();
    }

    /// <summary>Changes with any letter of any model: answers that rest on the models carry it in their tags.</summary>
    public string Fingerprint { get; }

    public IReadOnlyList<FaultModel> All => [.. models.Values.Select(m => m.Source)];

    public FaultModel? Find(string id) => Compiled(id)?.Source;

    public CompiledModel? Compiled(string id) => models.GetValueOrDefault(id);

    private Dictionary<string, ModelText> Pieces(string folder) => !Directory.Exists(folder) ? []
        : Directory.GetFiles(folder, "*.json").Order(StringComparer.Ordinal).ToDictionary(path => Path.GetFileNameWithoutExtension(path), Text);

    private ModelText Text(string path)
    {
        var text = File.ReadAllText(path);
        read.AppendData(Encoding.UTF8.GetBytes(text));
        return new ModelText(path, text);
    }

    private void Add(string path, Dictionary<string, ModelText> pieces)
    {
        try
        {
            var composed = FaultModelComposer.Compose(Text(path), pieces);
            var model = composed.Read();
            if (FaultModelLinter.Lint(model).Refusals is { Count: > 0 } refusals)
            {
                throw new StartException($"{path} cannot be used:{string.Concat(refusals.Select(r => $"\n  {composed.PlaceOf(r.Path)}, {r.Path}: {r.Message} ({r.Rule})"))}");
            }

            if (!models.TryAdd(model.Id, new CompiledModel(model)))
            {
                throw new StartException($"{path}: a second fault model calls itself \"{model.Id}\"; ids must differ.");
            }
        }
        catch (FaultModelException e)
        {
            throw new StartException(e.Message);
        }
    }
}
