using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Shipped;
using FuelHistory.Host.Sqlite;

namespace FuelHistory.Host.Features.FaultModels;

/// <summary>The fault models beside the program, and the user's own: one folder each, with a model.json; what several include is in shared/. Known from the start on; each is read when it is asked for where the build has linted it, else at the start.</summary>
public sealed class FaultModelFolder
{
    private const string ModelName = "model.json";

    private readonly IncrementalHash read = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly SortedDictionary<string, KnownModel> models = new(StringComparer.Ordinal);
    private readonly List<RefusedFaultModel> refused = [];

    /// <param name="own">The user's own models; the folder need not be there. What cannot be used of them is refused by itself.</param>
    /// <param name="known">Ours, where they are those that the build linted.</param>
    /// <exception cref="StartException">A model of ours cannot be used; the message says which, where and why.</exception>
    public FaultModelFolder(string folder, string? own = null, CheckedAtBuild? known = null)
    {
        if (!Directory.Exists(folder))
        {
            throw new StartException($"There is no folder of fault models at {folder}.");
        }

        if (known is not null)
        {
            known.Models.ToList().ForEach(m => models.Add(m.Id, m));
            read.AppendData(Encoding.UTF8.GetBytes(known.Fingerprint));
        }
        else
        {
            AddOurs(folder);
        }

        if (own is not null && Directory.Exists(own))
        {
            AddOwn(own, folder);
        }

        Fingerprint = Convert.ToHexStringLower(read.GetHashAndReset())[..8];
        read.Dispose();
    }

    /// <summary>Changes with any letter of any model: answers that rest on the models carry it in their tags.</summary>
    public string Fingerprint { get; }

    public IReadOnlyCollection<KnownModel> Known => models.Values;

    /// <summary>Reads each that was not asked for yet.</summary>
    public IEnumerable<FaultModel> All => models.Values.Select(m => m.Loaded.Compiled.Source);

    /// <summary>The user's own files that cannot be used.</summary>
    public IReadOnlyList<RefusedFaultModel> Refused => refused;

    /// <summary>The fuel system under which limits are looked up: of a model of the user's own that of ours on which it builds.</summary>
    public string SystemOf(string id) => models.GetValueOrDefault(id)?.BaseId ?? id;

    public LoadedModel? FindLoaded(string id) => models.GetValueOrDefault(id)?.Loaded;

    public FaultModel? Find(string id) => FindLoaded(id)?.Compiled.Source;

    /// <exception cref="FaultModelUnusableException">It is not there, or was refused.</exception>
    public FaultModel Needed(string id) => NeededKnown(id).Loaded.Compiled.Source;

    /// <exception cref="FaultModelUnusableException">It is not there, or was refused.</exception>
    public KnownModel NeededKnown(string id) => models.GetValueOrDefault(id) ?? throw new FaultModelUnusableException(
        refused.FirstOrDefault(r => r.Id == id) is { } known
            ? $"The fault model \"{id}\" that the vehicle names was refused when the host started: {string.Join(" ", known.Reasons)} Mend the file and start the host again; nothing of the record is lost."
            : $"The fault model \"{id}\" that the vehicle names is not installed. Put it back and start the host again; nothing of the record is lost.");

    private void AddOurs(string folder)
    {
        var pieces = Pieces(folder);
        string[] unusable = [.. Paths(folder).Select(path => AddOurs(path, pieces)).OfType<string>()];
        if (unusable.Length > 0)
        {
            throw new StartException(string.Join('\n', unusable));
        }

        if (models.Count == 0)
        {
            throw new StartException($"There is no fault model in {folder}; each is a folder with a {ModelName}.");
        }
    }

    /// <returns>Why it cannot be used, or null.</returns>
    private string? AddOurs(string path, IReadOnlyDictionary<string, ModelText> pieces)
    {
        var file = FaultModelFile.Read(Text(path), pieces, () => Reasons(path));
        if (file.Model is not { } model)
        {
            return $"{path} cannot be used:{string.Concat(file.Reasons.Select(r => $"\n  {r}"))}";
        }

        return models.TryAdd(model.Id, model) ? null : $"{path}: a second fault model calls itself \"{model.Id}\"; ids must differ.";
    }

    private void AddOwn(string folder, string oursIn)
    {
        Reading(folder, () =>
        {
            string[] paths = [.. Paths(folder)];
            if (paths.Length == 0)
            {
                return;
            }

            var ours = Pieces(oursIn);
            var own = Pieces(folder);
            foreach (var twice in own.Keys.Where(ours.ContainsKey))
            {
                refused.Add(new RefusedFaultModel(null, own[twice].Name, [$"The program has a shared piece \"{twice}\" already; give yours another name."]));
            }

            var pieces = ours.Concat(own.Where(p => !ours.ContainsKey(p.Key))).ToDictionary();
            models.Values.ToList().ForEach(m => pieces.TryAdd(m.Id, Text(m.File)));
            foreach (var path in paths)
            {
                Reading(path, () => AddOwnModel(path, pieces));
            }
        });
    }

    private void Reading(string path, Action read)
    {
        try
        {
            read();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            refused.Add(new RefusedFaultModel(null, path, [$"It cannot be read: {e.Message}"]));
        }
    }

    private void AddOwnModel(string path, IReadOnlyDictionary<string, ModelText> pieces)
    {
        var file = FaultModelFile.Read(Text(path), pieces, () => Reasons(path), own: true);
        if (file.Model is not { } model)
        {
            refused.Add(new RefusedFaultModel(file.Id, path, file.Reasons));
        }
        else if (!models.TryAdd(file.Id!, model))
        {
            refused.Add(new RefusedFaultModel(null, path, [$"There is a fault model \"{file.Id}\" already. Give yours an id of its own."]));
        }
    }

    /// <summary>A file of remarks that cannot be read costs its remarks, not the model.</summary>
    private Dictionary<string, string> Reasons(string modelPath)
    {
        var path = Path.Combine(Path.GetDirectoryName(modelPath)!, ReviewedPairs.FileName);
        try
        {
            return File.Exists(path) ? ReviewedPairs.Of(Text(path).Json) : [];
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            refused.Add(new RefusedFaultModel(null, path, [$"Its reasons cannot be read: {e.Message}"]));
            return [];
        }
    }

    private Dictionary<string, ModelText> Pieces(string folder) => PieceFiles.In(folder).ToDictionary(path => Path.GetFileNameWithoutExtension(path), Text);

    private static IEnumerable<string> Paths(string folder) => Directory.EnumerateFiles(folder, ModelName, SearchOption.AllDirectories).Order(StringComparer.Ordinal);

    private ModelText Text(string path)
    {
        var text = File.ReadAllText(path);
        read.AppendData(Encoding.UTF8.GetBytes(text));
        return new ModelText(path, text);
    }
}
